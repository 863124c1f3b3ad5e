import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { sheetFor, type SheetItem } from "@/lib/domain/safety/sheet-for";
import type { Tx } from "@/lib/server/db";

type OfFiring = { readonly workshopId: string; readonly firingId: string };

/** The same for every firing of a plan, and a plan is kept in the process and never changes. */
const sheets = new WeakMap<CastingPlan, Map<boolean, string>>();

/** The items of a new firing's check sheet as JSON, with this plan's numbers beside them. */
export function checkItemsJson(plan: CastingPlan, input: CastingInput): string {
  const leadGlass = mayHoldLead(input);
  const known = sheets.get(plan) ?? new Map<boolean, string>();
  sheets.set(plan, known);
  const json = known.get(leadGlass) ?? JSON.stringify(sheetFor(plan, { leadGlass }).map((item, position) => ({ position, ...itemRow(item) })));
  known.set(leadGlass, json);
  return json;
}

/**
 * Brings a planned firing's sheet up to another plan. An item is never changed: where its numbers are others now, a
 * new one takes its place, and wants a tick of its own.
 */
export async function followPlan(tx: Tx, of: OfFiring, plan: CastingPlan, inputs: readonly CastingInput[], at: Date): Promise<void> {
  const { firingId } = of;
  const before = await tx.checkItem.findMany({ where: { firingId } });
  const items = sheetFor(plan, { leadGlass: inputs.some(mayHoldLead) }).map(itemRow);
  const same = (row: ItemRow, item: ItemRow): boolean => baseCode(row.code) === item.code && ITEM_FIELDS.every((field) => row[field] === item[field]);
  const kept = before.filter((row) => row.replacedAt === null && items.some((item) => same(row, item)));
  const keptCodes = kept.map(({ code }) => code);
  await tx.checkItem.updateMany({ where: { firingId, replacedAt: null, code: { notIn: keptCodes } }, data: { replacedAt: at } });
  const fresh = items.flatMap((item, position) => {
    if (kept.some((row) => same(row, item))) return [];
    const earlier = before.filter((row) => baseCode(row.code) === item.code).length;
    return [{ ...of, position, ...item, code: earlier === 0 ? item.code : `${item.code}/${earlier + 1}` }];
  });
  await tx.checkItem.createMany({ data: fresh });
}

const ITEM_FIELDS = ["text", "why", "source", "level", "scope", "detail", "forbids"] as const;
type ItemRow = Readonly<Record<"code" | "phase" | "text" | "why" | "source" | "level" | "scope", string>> & { readonly detail: string | null; readonly forbids: string | null };

/** The template's code of an item that has taken another's place: "L5" of "L5/2". */
function baseCode(code: string): string {
  return code.split("/")[0] ?? code;
}

function itemRow({ code, phase, text, why, source, level, scope, detail, forbids }: SheetItem): ItemRow {
  return { code, phase, text, why, source, level, scope, detail: detail ?? null, forbids: forbids ?? null };
}

/** A member's own glass gets the lead items too: nobody but its maker knows that it holds none. */
function mayHoldLead({ glass }: CastingInput): boolean {
  return typeof glass === "string" ? glass.startsWith("lead-crystal") : true;
}
