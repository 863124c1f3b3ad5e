import { FieldGrid, FieldGroup } from "@/app/_components/field-group";
import { NumberField } from "@/app/_components/number-field";
import { Select } from "@/app/_components/select";
import { TextField } from "@/app/_components/text-field";
import { OWN_GLASS } from "@/lib/contracts/casting-fields";
import { CATALOGUE } from "@/lib/domain/glass/catalogue";
import { fieldProps, type FieldSet } from "./field-set";

const CHOICES = [...CATALOGUE.map(({ id, name }) => ({ value: id, label: name })), { value: OWN_GLASS, label: "Another glass, with its own data" }];

export function GlassFields({ fields }: { readonly fields: FieldSet }) {
  const { form } = fields;
  const known = CATALOGUE.find((glass) => glass.id === form.glass);
  const hint = known === undefined ? undefined : `${known.densityKgM3} kg/m³, expansion ${(known.expansionSolidPerK * 1e6).toFixed(1)} millionths per K. The maker's sheet for the glass in hand always wins.`;
  return (
    <FieldGroup title="Glass">
      <FieldGrid>
        <Select {...fieldProps(fields, "glass")} label="Which glass" prompt="Choose a glass" choices={CHOICES} hint={hint} required />
        {form.glass === OWN_GLASS && <OwnGlassFields fields={fields} />}
      </FieldGrid>
    </FieldGroup>
  );
}

function OwnGlassFields({ fields }: { readonly fields: FieldSet }) {
  return (
    <>
      <TextField {...fieldProps(fields, "glass.name")} label="Its name" maxLength={120} required hint="What is left empty below is taken from the nearest known glass, and named in the answer." />
      <NumberField {...fieldProps(fields, "glass.densityKgM3")} label="Density" unit="kg/m³" optional />
      <NumberField {...fieldProps(fields, "glass.annealingPointC")} label="Annealing point" unit="°C" optional />
      <NumberField {...fieldProps(fields, "glass.strainPointC")} label="Strain point" unit="°C" optional />
      <NumberField {...fieldProps(fields, "glass.softeningPointC")} label="Softening point" unit="°C" optional />
      <NumberField {...fieldProps(fields, "glass.expansionSolidPerK")} label="Expansion, 20 to 300 °C" unit="× 10⁻⁶ / K" optional />
    </>
  );
}
