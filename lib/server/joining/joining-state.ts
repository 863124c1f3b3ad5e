import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { PLAN_TITLE } from "@/lib/server/rows/firing-title";

const PARTS = {
  member: { select: { name: true } },
  casting: { select: { title: true, memberId: true, updatedAt: true, withdrawnAt: true, firings: { where: { standing: true }, select: { firingId: true } } } },
  plan: { include: { castings: { include: { casting: { select: { castingId: true, title: true, memberId: true, updatedAt: true, withdrawnAt: true } } } } } },
  answers: { include: { member: { select: { name: true } } }, orderBy: { at: "asc" } },
  firing: { select: { firingId: true, memberId: true, status: true, version: true, plan: { select: PLAN_TITLE } } },
} as const;

export function findJoining(tx: Tx, joiningId: string) {
  return tx.joining.findFirst({ where: { joiningId }, include: PARTS });
}

export type JoiningRow = NonNullable<Awaited<ReturnType<typeof findJoining>>>;

type Lapsing = Pick<JoiningRow, "status" | "expiresAt" | "endedBecause" | "firingVersion" | "casting"> & {
  readonly firing: Pick<JoiningRow["firing"], "status" | "version">;
  readonly plan: { readonly createdAt: Date; readonly castings: readonly { readonly casting: { readonly title: string; readonly updatedAt: Date; readonly withdrawnAt: Date | null } }[] };
};

/** Why a proposal does not stand any more, in one sentence; undefined while it waits for answers. */
export function overBecause(row: Lapsing, now: Temporal.Instant): string | undefined {
  if (row.status !== "open") return row.endedBecause ?? "It is over.";
  if (row.expiresAt <= toDate(now)) return "Lapsed, since not everybody answered in time.";
  if (row.firing.status !== "planned" || row.firing.version !== row.firingVersion) return "Lapsed, since the firing was changed.";
  if (row.casting.firings.length > 0) return `Lapsed, since ${row.casting.title} has got a run of its own.`;
  const changed = row.plan.castings.find(({ casting }) => casting.withdrawnAt !== null || casting.updatedAt > row.plan.createdAt)?.casting;
  if (changed === undefined) return undefined;
  return `Lapsed, since ${changed.title} was ${changed.withdrawnAt === null ? "changed" : "withdrawn"}.`;
}

/** Ends those open proposals of a firing or of a casting that lapsed by themselves, so that another may be made. */
export async function endLapsed(tx: Tx, of: { readonly firingId: string } | { readonly castingId: string }, now: Temporal.Instant): Promise<void> {
  const open = await tx.joining.findMany({ where: { ...of, status: "open" }, include: PARTS });
  for (const row of open) {
    const endedBecause = overBecause(row, now);
    if (endedBecause !== undefined) await tx.joining.updateMany({ where: { joiningId: row.joiningId, status: "open" }, data: { status: "lapsed", endedAt: toDate(now), endedBecause } });
  }
}
