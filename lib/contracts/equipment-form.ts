import { EQUIPMENT_FIELDS } from "@/lib/contracts/equipment-fields";
import { readNumber } from "@/lib/contracts/form-number";
import { ok, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";

type Kind = keyof typeof EQUIPMENT_FIELDS;

/** Reads one field of a form by its name; the empty text when it was not sent. */
export type ReadField = (name: string) => string;

/**
 * Builds the description of a piece of equipment from a form's text. Numbers are read as people write them; what
 * cannot be read is refused here, ranges by the schema.
 */
export function equipmentFromForm(read: ReadField): Outcome<Readonly<Record<string, unknown>>> {
  const kind = read("kind");
  const problems: Problem[] = [];
  const limits: Record<string, unknown> = {};
  const inside: unknown[] = [];
  for (const { path, label, unit } of isKind(kind) ? EQUIPMENT_FIELDS[kind] : []) {
    const number = readNumber(path, read(path), { label, ...(unit === "" ? {} : { unit }) });
    if (!number.ok) problems.push(...number.problems);
    else if (path.startsWith("limits.insideMm.")) inside.push(number.value);
    else limits[path.slice("limits.".length)] = number.value;
  }
  if (inside.length > 0) limits["insideMm"] = inside;
  const shown = kind === "kiln" ? { needsInduction: read("needsInduction") !== "" } : {};
  return refusalOf(problems) ?? ok({ kind, name: read("name"), limits, inspectionDue: read("inspectionDue") || null, ...shown });
}

function isKind(text: string): text is Kind {
  return Object.hasOwn(EQUIPMENT_FIELDS, text);
}
