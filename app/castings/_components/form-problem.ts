import { CASTING_FIELDS, FIELD_WORDS, type CastingField, type CastingForm } from "@/lib/contracts/casting-fields";
import type { Problem } from "@/lib/domain/refusal";

/**
 * A problem in the words of the form: it leads to a field that is there, and says "The mould wall"
 * where the input says "mould.wallMm".
 */
export function inFormWords(problem: Problem): Problem {
  const field = formField(problem.field);
  if (field === undefined) return problem;
  const words = FIELD_WORDS[field];
  const path = problem.field ?? "";
  const message = words !== undefined && problem.message.startsWith(`${path} `) ? `${words.label}${problem.message.slice(path.length)}` : problem.message;
  return { ...problem, field, message };
}

/** "input.piece.sizeMm" → "piece.sizeMm.0": the field itself, or the first one under it. */
function formField(path: string | undefined): CastingField | undefined {
  if (path === undefined) return undefined;
  const plain = path.replace(/^input\./, "");
  return CASTING_FIELDS.find((field) => field === plain) ?? CASTING_FIELDS.find((field) => field.startsWith(`${plain}.`));
}

/** Fields that only matter for one choice are not shown under another, and cannot hold a problem then. */
export function isShown(field: CastingField, form: CastingForm): boolean {
  if (field.startsWith("glass.")) return form.glass === "own";
  if (field.startsWith("mould.")) return form.mould !== "";
  if (field.startsWith("feeder.")) return form.feeder !== "";
  return field.startsWith("stress.") ? form.stress === "own" : true;
}
