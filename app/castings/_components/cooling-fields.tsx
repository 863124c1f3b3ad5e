import { FieldGrid, FieldGroup } from "@/app/_components/field-group";
import { levelWords } from "@/app/_components/level-words";
import { NumberField } from "@/app/_components/number-field";
import { RadioGroup } from "@/app/_components/radio-group";
import type { CastingForm } from "@/lib/contracts/casting-fields";
import { readCastingForm } from "@/lib/contracts/casting-form";
import { CATALOGUE } from "@/lib/domain/glass/catalogue";
import { completeGlass } from "@/lib/domain/glass/complete-glass";
import type { Glass } from "@/lib/domain/glass/glass";
import { CAREFUL } from "@/lib/domain/stress/stress-level";
import { CoolingPicture } from "./cooling-picture";
import { fieldProps, type FieldSet } from "./field-set";
import { typedLimits } from "./typed-limits";
import styles from "./editor.module.css";

/** What can be said of the own limits' time, once it was worked out. */
type CoolingFieldsProps = { readonly fields: FieldSet; readonly levelCost: string | undefined };

export function CoolingFields({ fields, levelCost }: CoolingFieldsProps) {
  const { form } = fields;
  const glass = glassOf(form);
  const own = typedLimits(form["stress.permanentMPa"], form["stress.passingMPa"]);
  return (
    <FieldGroup title="Cooling">
      <div className={styles["stack"]}>
        <RadioGroup
          {...fieldProps(fields, "cooling")}
          label="Heat leaves it"
          choices={[
            { value: "all-round", label: <Pictured way="all-round" text="from all round" />, hint: "Air or an even mould on every side." },
            { value: "one-face", label: <Pictured way="one-face" text="through one face" />, hint: "The other side rests on something thick. It must cool about four times as slowly." },
          ]}
        />
        <RadioGroup
          {...fieldProps(fields, "stress")}
          label="How much stress may stay"
          choices={[
            { value: "careful", label: "Careful", hint: `${levelWords(CAREFUL, glass)}: what published tables for thick pieces keep to.` },
            { value: "own", label: "My own limits", hint: own === null ? undefined : `${levelWords(own, glass)}${levelCost === undefined ? "" : `: ${levelCost}`}.` },
          ]}
        />
        <FieldGrid>
          {form.stress === "own" && (
            <>
              <NumberField {...fieldProps(fields, "stress.permanentMPa")} label="Largest permanent tension" unit="MPa" required />
              <NumberField {...fieldProps(fields, "stress.passingMPa")} label="Largest passing tension" unit="MPa" required />
            </>
          )}
          <NumberField {...fieldProps(fields, "processC")} label="Process temperature" unit="°C" optional hint="The hottest of the firing. Left empty, the glass's own." />
        </FieldGrid>
      </div>
    </FieldGroup>
  );
}

/** The glass whose polarised light the hints speak of; an own glass is taken with what it is completed by. */
function glassOf(form: CastingForm): Glass | undefined {
  const known = CATALOGUE.find(({ id }) => id === form.glass);
  if (known !== undefined) return known;
  const input = readCastingForm(form);
  const glass = input.ok ? completeGlass(input.value.glass) : undefined;
  return glass?.ok === true ? glass.value.glass : undefined;
}

function Pictured({ way, text }: { readonly way: "all-round" | "one-face"; readonly text: string }) {
  return (
    <span className={styles["pictured"]}>
      <CoolingPicture way={way} />
      {text}
    </span>
  );
}
