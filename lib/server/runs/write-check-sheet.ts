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

type Followed = { readonly firingId: string; readonly plan: CastingPlan; readonly inputs: readonly CastingInput[] };
type KeptRow = ItemRow & { readonly firingId: string; readonly replacedAt: Date | null };

/** Brings a planned firing's sheet up to another plan; see `followPlans`. */
export function followPlan(tx: Tx, { workshopId, firingId }: OfFiring, plan: CastingPlan, inputs: readonly CastingInput[], at: Date): Promise<void> {
  return followPlans(tx, workshopId, [{ firingId, plan, inputs }], at);
}

/**
 * Brings the sheets of planned firings up to other plans. An item is never changed: where its numbers are others now, a
 * new one takes its place, and wants a tick of its own.
 */
export async function followPlans(tx: Tx, workshopId: string, followed: readonly Followed[], at: Date): Promise<void> {
  const rows = await tx.checkItem.findMany({ where: { firingId: { in: followed.map(({ firingId }) => firingId) } } });
  const changes = followed.map((one) => changesOf(one, rows.filter(({ firingId }) => firingId === one.firingId)));
  const replaced = JSON.stringify(changes.flatMap((one) => one.replaced.map(({ firingId, code }) => ({ firingId, code }))));
  await tx.$executeRaw`
    UPDATE check_item i SET replaced_at = ${at} FROM jsonb_to_recordset(${replaced}::jsonb) AS r ("firingId" uuid, code text)
     WHERE i.workshop_id = ${workshopId}::uuid AND i.firing_id = r."firingId" AND i.code = r.code`;
  await tx.checkItem.createMany({ data: changes.flatMap((one) => one.fresh.map((item) => ({ workshopId, ...item }))) });
}

function changesOf({ firingId, plan, inputs }: Followed, before: readonly KeptRow[]) {
  const items = sheetFor(plan, { leadGlass: inputs.some(mayHoldLead) }).map(itemRow);
  const same = (row: ItemRow, item: ItemRow): boolean => baseCode(row.code) === item.code && ITEM_FIELDS.every((field) => row[field] === item[field]);
  const kept = before.filter((row) => row.replacedAt === null && items.some((item) => same(row, item)));
  const fresh = items.flatMap((item, position) => {
    if (kept.some((row) => same(row, item))) return [];
    const earlier = before.filter((row) => baseCode(row.code) === item.code).length;
    return [{ firingId, position, ...item, code: earlier === 0 ? item.code : `${item.code}/${earlier + 1}` }];
  });
  return { replaced: before.filter((row) => row.replacedAt === null && !kept.includes(row)), fresh };
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
