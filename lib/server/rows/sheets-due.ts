import type { Temporal } from "temporal-polyfill";
import { mayOpen, mayStart } from "@/lib/domain/safety/check-sheet";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/** A check sheet that somebody has to go through soon. */
export type SheetDue = {
  readonly firingId: string;
  readonly title: string;
  readonly owner: string;
  readonly kiln: string;
  readonly doing: "load" | "unload";
  /** Epoch milliseconds. */
  readonly atMs: number;
  /** Items that still stand in the way of starting or opening. */
  readonly open: number;
};

/** Sheets of firings that load or unload before an instant, the late ones first; of one member or of all. */
export async function sheetsDue(tx: Tx, before: Temporal.Instant, memberId?: string): Promise<readonly SheetDue[]> {
  const firings = await tx.firing.findMany({
    where: { status: { in: ["planned", "started"] }, ...(memberId === undefined ? {} : { castings: { some: { standing: true, casting: { memberId } } } }) },
    select: {
      firingId: true, status: true, expectedEnd: true,
      member: { select: { name: true } },
      plan: { select: PLAN_TITLE },
      bookings: { where: { standing: true }, select: { purpose: true, startsAt: true, endsAt: true, equipment: { select: { name: true } } } },
    },
  });
  const due: SheetDue[] = [];
  for (const { firingId, status, expectedEnd, member, plan, bookings } of firings) {
    const doing = status === "planned" ? "load" : "unload";
    const kiln = bookings.find((booking) => booking.purpose === "kiln");
    const moved = bookings.find((booking) => booking.purpose === doing);
    const at = (doing === "unload" ? expectedEnd : null) ?? moved?.startsAt ?? (doing === "load" ? kiln?.startsAt : kiln?.endsAt);
    if (kiln === undefined || at === undefined || at >= toDate(before)) continue;
    due.push({ firingId, title: titleOf(plan), owner: member.name, kiln: kiln.equipment.name, doing, atMs: at.getTime(), open: await openItems(tx, firingId, doing) });
  }
  return due.sort((a, b) => a.atMs - b.atMs);
}

async function openItems(tx: Tx, firingId: string, doing: SheetDue["doing"]): Promise<number> {
  const sheet = await loadCheckSheet(tx, firingId);
  if (sheet === null) return 0;
  const may = doing === "load" ? mayStart(sheet.items, sheet.answers) : mayOpen(sheet.items, sheet.answers);
  return may.ok ? 0 : may.problems.length;
}
