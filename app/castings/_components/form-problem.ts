import { CASTING_FIELDS, FIELD_WORDS, type CastingField, type CastingForm, toMillionths } from "@/lib/contracts/casting-fields";
import type { Problem } from "@/lib/domain/refusal";

/**
 * A problem in the words of the form: it leads to a field that is there, and says "The mould wall"
 * where the input says "mould.wallMm".
 */
export function inFormWords(problem: Problem): Problem {
  const field = formField(problem.field);
  if (field === undefined) return problem;
  const label = FIELD_WORDS[field];
  const path = problem.field ?? "";
  if (label === undefined || !problem.message.startsWith(`${path} `)) return { ...problem, field };
  const said = `${label}${problem.message.slice(path.length)}`;
  return { ...problem, field, message: field === "glass.expansionSolidPerK" ? inMillionths(said) : said };
}

/** The form asks for an expansion in millionths per K; the input holds it per K. */
function inMillionths(message: string): string {
  return message.replaceAll(/\d[\d.]*(e-\d+)?(?= to | per K)/g, (number) => String(toMillionths(Number(number)))).replaceAll(" per K", " millionths per K");
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
