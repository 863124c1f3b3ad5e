import { Temporal } from "temporal-polyfill";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import { isId } from "@/lib/contracts/is-id";
import type { RecordNames } from "@/lib/server/rows/record-names";

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const LONGEST = 300;

/** What a subject is called; a check item keeps its code. */
export function subjectWords(subjectId: string, names: RecordNames): string {
  const [id = "", code] = subjectId.split("/");
  const name = names.get(id) ?? "";
  return code === undefined ? name : `${code} of ${name}`;
}

/** An entry in words: ids by name, instants on the workshop's clock, what lies deeper in brackets, long ones cut. */
export function recordWords(value: unknown, names: RecordNames, timeZone: string): string {
  if (value === null || value === undefined) return "";
  if (typeof value !== "object") return String(value);
  const parts = Object.entries(value).flatMap(([key, inner]) => {
    const words = innerWords(inner, names, timeZone);
    return words === undefined ? [] : [`${keyWords(key)} ${words}`];
  });
  const text = parts.join("; ");
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}

function innerWords(inner: unknown, names: RecordNames, timeZone: string): string | undefined {
  if (inner === null) return "none";
  if (Array.isArray(inner)) return inner.every((one) => typeof one === "string") ? inner.join(", ") : `${inner.length} entries`;
  if (typeof inner === "object") return nestedWords(inner, names, timeZone);
  const text = String(inner);
  if (isId(text)) return names.get(text);
  return INSTANT.test(text) ? showTimeWithYear(Temporal.Instant.from(text), timeZone) : text;
}

function nestedWords(inner: object, names: RecordNames, timeZone: string): string | undefined {
  const words = recordWords(inner, names, timeZone);
  return words === "" ? undefined : `(${words})`;
}

/** "needed by" of neededBy; a unit keeps its capital: "loss W per K" of lossWPerK. */
function keyWords(key: string): string {
  return key.replace(/Id$/, "").replaceAll(/[A-Z](?![a-z])/g, " $&").replaceAll(/[A-Z](?=[a-z])/g, (letter) => ` ${letter.toLowerCase()}`);
}
