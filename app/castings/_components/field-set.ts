import type { CastingField, CastingForm } from "@/lib/contracts/casting-fields";

/** What a part of the form needs: what was typed, how to change it, and what is wrong with it. */
export type FieldSet = {
  readonly form: CastingForm;
  readonly set: (field: CastingField, value: string) => void;
  readonly errorOf: (field: CastingField) => string | undefined;
};

/** Name, value, change and error of one field, for the field components. */
export function fieldProps({ form, set, errorOf }: FieldSet, name: CastingField) {
  return { name, value: form[name], onChange: (value: string) => set(name, value), error: errorOf(name) };
}
