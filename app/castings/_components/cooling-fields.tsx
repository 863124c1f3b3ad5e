import { FieldGrid, FieldGroup } from "@/app/_components/field-group";
import { NumberField } from "@/app/_components/number-field";
import { RadioGroup } from "@/app/_components/radio-group";
import { CAREFUL } from "@/lib/domain/stress/stress-level";
import { CoolingPicture } from "./cooling-picture";
import { fieldProps, type FieldSet } from "./field-set";
import styles from "./editor.module.css";

export function CoolingFields({ fields }: { readonly fields: FieldSet }) {
  const { form } = fields;
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
            { value: "careful", label: "Careful", hint: `At most ${CAREFUL.permanentMPa} MPa for good, ${CAREFUL.passingMPa} MPa in passing: what published tables for thick pieces keep to.` },
            { value: "own", label: "My own limits" },
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

function Pictured({ way, text }: { readonly way: "all-round" | "one-face"; readonly text: string }) {
  return (
    <span className={styles["pictured"]}>
      <CoolingPicture way={way} />
      {text}
    </span>
  );
}
