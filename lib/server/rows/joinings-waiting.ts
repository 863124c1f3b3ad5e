import type { Temporal } from "temporal-polyfill";
import type { Tx } from "@/lib/server/db";
import { findJoining, overBecause } from "@/lib/server/joining/joining-state";
import { titleOf } from "@/lib/server/rows/firing-title";

/** A proposal that waits for one person's answer. */
export type JoiningWaiting = { readonly joiningId: string; readonly by: string; readonly castingTitle: string; readonly firingTitle: string; readonly expiresMs: number };

/** Those that wait for a member's answer, the first to lapse first. */
export async function joiningsWaiting(tx: Tx, memberId: string, now: Temporal.Instant): Promise<readonly JoiningWaiting[]> {
  const rows = await tx.joining.findMany({
    where: { status: "open", memberId: { not: memberId }, firing: { castings: { some: { standing: true, casting: { memberId } } } }, answers: { none: { memberId } } },
    select: { joiningId: true }, orderBy: { expiresAt: "asc" },
  });
  const waiting: JoiningWaiting[] = [];
  for (const { joiningId } of rows) {
    const row = await findJoining(tx, joiningId);
    if (row === null || overBecause(row, now) !== undefined) continue;
    waiting.push({ joiningId, by: row.member.name, castingTitle: row.casting.title, firingTitle: titleOf(row.firing.plan), expiresMs: row.expiresAt.getTime() });
  }
  return waiting;
}
