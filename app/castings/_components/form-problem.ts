import { CASTING_FIELDS, type CastingField, type CastingForm, labelOf, MESH, toMillionths } from "@/lib/contracts/casting-fields";
import type { Problem } from "@/lib/domain/refusal";

/** Inputs that are several fields on the form. */
const WHOLES: Readonly<Record<string, string>> = { "piece.sizeMm": "The size", "mould.plasterSilicaWater": "The mix" };

/**
 * A problem in the words of the form: it leads to a field that is there, and says "The mould wall"
 * where the input says "mould.wallMm". `shape` decides what the sizes are called.
 */
export function inFormWords(problem: Problem, shape: string): Problem {
  const path = problem.field ?? "";
  // The command line names a mesh by its file, the form by what was read of it.
  const plain = path.replace(/^input\./, "").replace(/^piece\.file$/, "piece.meshId");
  const field = formField(plain);
  if (field === undefined) return problem;
  if (!problem.message.startsWith(path) || !/^[ ,]/.test(problem.message.slice(path.length))) return { ...problem, field };
  const said = `${WHOLES[plain] ?? labelOf(field, shape)}${problem.message.slice(path.length)}`;
  return { ...problem, field, message: field === "glass.expansionSolidPerK" ? inMillionths(said) : said };
}

/** The form asks for an expansion in millionths per K; the input holds it per K. */
function inMillionths(message: string): string {
  return message.replaceAll(/\d[\d.]*(e-\d+)?(?= to | per K)/g, (number) => String(toMillionths(Number(number)))).replaceAll(" per K", " millionths per K");
}

/** "piece.sizeMm" → "piece.sizeMm.0": the field itself, or the first one under it. */
function formField(path: string): CastingField | undefined {
  return CASTING_FIELDS.find((field) => field === path) ?? CASTING_FIELDS.find((field) => path !== "" && field.startsWith(`${path}.`));
}

/** Fields that only matter for one choice are not shown under another, and cannot hold a problem then. */
export function isShown(field: CastingField, form: CastingForm): boolean {
  if (field === "piece.meshId") return form["piece.shape"] === MESH;
  if (field === "piece.thickestMm") return form["piece.shape"] !== MESH;
  if (field.startsWith("glass.")) return form.glass === "own";
  if (field.startsWith("mould.")) return form.mould !== "";
  if (field.startsWith("feeder.")) return form.feeder !== "";
  return field.startsWith("stress.") ? form.stress === "own" : true;
}
