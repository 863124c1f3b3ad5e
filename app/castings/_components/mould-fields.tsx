import { Checkbox } from "@/app/_components/checkbox";
import { FieldGrid, FieldGroup } from "@/app/_components/field-group";
import { NumberField } from "@/app/_components/number-field";
import { numberText } from "@/app/_components/number-text";
import { YES } from "@/lib/contracts/casting-fields";
import { roughGlassKg, suggestedWall } from "@/lib/contracts/form-glass-mass";
import { fieldProps, meshIn, type FieldSet } from "./field-set";
import styles from "./editor.module.css";

export function MouldFields({ fields }: { readonly fields: FieldSet }) {
  const { form, set } = fields;
  return (
    <FieldGroup title="Mould">
      <div className={styles["stack"]}>
        <Checkbox name="mould" label="The piece is cast into a mould" value={YES} checked={form.mould === YES} onChange={(on) => set("mould", on ? YES : "")} />
        {form.mould === YES && <ShellFields fields={fields} />}
      </div>
    </FieldGroup>
  );
}

function ShellFields({ fields }: { readonly fields: FieldSet }) {
  const { form, set } = fields;
  const mesh = meshIn(form, fields.mesh);
  const wall = suggestedWall(form, mesh);
  const kg = roughGlassKg(form, mesh);
  return (
    <>
      <FieldGrid>
        <NumberField
          {...fieldProps(fields, "mould.wallMm")}
          label="Wall"
          unit="mm"
          placeholder={wall?.toString()}
          hint={wall === undefined || kg === undefined ? "Left empty, a customary wall is taken." : `Left empty: ${wall} mm, customary for ${numberText(kg, 1)} kg of glass.`}
        />
      </FieldGrid>
      <FieldGroup title="Mix, parts by weight" small>
        <div className={styles["three"]}>
          <NumberField {...fieldProps(fields, "mould.plasterSilicaWater.0")} label="Plaster" />
          <NumberField {...fieldProps(fields, "mould.plasterSilicaWater.1")} label="Silica" />
          <NumberField {...fieldProps(fields, "mould.plasterSilicaWater.2")} label="Water" />
        </div>
      </FieldGroup>
      <Checkbox
        name="mould.driedBeforeLoading"
        label="Dried in air before loading"
        hint="To the dry mass given beside. Otherwise the kiln dries it, slowly, at the start of the firing."
        value={YES}
        checked={form["mould.driedBeforeLoading"] === YES}
        onChange={(on) => set("mould.driedBeforeLoading", on ? YES : "")}
      />
      <Checkbox name="feeder" label="It is filled through a feeder" value={YES} checked={form.feeder === YES} onChange={(on) => set("feeder", on ? YES : "")} />
      {form.feeder === YES && (
        <FieldGrid>
          <NumberField {...fieldProps(fields, "feeder.diameterMm")} label="Feeder diameter" unit="mm" required />
          <NumberField {...fieldProps(fields, "feeder.lengthMm")} label="Feeder length" unit="mm" required />
          <NumberField {...fieldProps(fields, "feeder.waxKg")} label="Feeder wax" unit="kg" optional />
        </FieldGrid>
      )}
    </>
  );
}
