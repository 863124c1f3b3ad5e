import { Temporal } from "temporal-polyfill";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import type { Tx } from "@/lib/server/db";

/** Names for the ids that stand in the record, so that people can read it. */
export type RecordNames = ReadonlyMap<string, string>;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const LONGEST = 300;

/** Equipment, people and their tokens by name, castings by title, firings and wishes by their casting's. */
export async function loadRecordNames(tx: Tx): Promise<RecordNames> {
  const equipment = await tx.equipment.findMany({ select: { equipmentId: true, name: true } });
  const members = await tx.member.findMany({ select: { memberId: true, name: true } });
  const castings = await tx.casting.findMany({ select: { castingId: true, title: true } });
  const firings = await tx.firingCasting.findMany({ select: { firingId: true, casting: { select: { title: true } } } });
  const tokens = await tx.accessToken.findMany({ select: { tokenId: true, name: true } });
  const asks = await tx.ask.findMany({ select: { askId: true, casting: { select: { title: true } } } });
  return new Map([
    ...equipment.map((row) => [row.equipmentId, row.name] as const),
    ...members.map((row) => [row.memberId, row.name] as const),
    ...tokens.map((row) => [row.tokenId, row.name] as const),
    ...castings.map((row) => [row.castingId, row.title] as const),
    ...firings.map((row) => [row.firingId, row.casting.title] as const),
    ...asks.map((row) => [row.askId, row.casting.title] as const),
  ]);
}

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
  if (UUID.test(text)) return names.get(text);
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
