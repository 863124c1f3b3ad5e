import type { Interval } from "@/lib/domain/time/interval";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

export type DayWork = {
  /** Kilns and steamers whose booking begins, in order of time. */
  readonly loads: Awaited<ReturnType<typeof loadsIn>>;
  readonly lifts: Awaited<ReturnType<typeof liftsIn>>;
};

/** What is loaded and lifted in this interval. */
export async function dayWork(tx: Tx, span: Interval): Promise<DayWork> {
  return { loads: await loadsIn(tx, span), lifts: await liftsIn(tx, span) };
}

const CASTING = { select: { castingId: true, memberId: true, title: true, member: { select: { name: true } } } } as const;

/** What is only held is no work of the day: whoever confirms it in time is told then. */
function begins({ start, end }: Interval) {
  return { standing: true, firing: { status: { not: "held" } }, startsAt: { gte: toDate(start), lt: toDate(end) } };
}

/** A steam-out is of one casting, a kiln is loaded for all that share it. */
async function loadsIn(tx: Tx, span: Interval) {
  const rows = await tx.booking.findMany({
    where: { ...begins(span), purpose: { in: ["kiln", "steam-out"] } },
    include: { equipment: { select: { name: true } }, firing: { select: { memberId: true, castings: { where: { standing: true }, select: { casting: CASTING } } } } },
    orderBy: { startsAt: "asc" },
  });
  return rows.map(({ firing, ...row }) => ({ ...row, firing: { ...firing, castings: firing.castings.filter(({ casting }) => row.castingId === null || casting.castingId === row.castingId) } }));
}

function liftsIn(tx: Tx, span: Interval) {
  return tx.lift.findMany({
    where: begins(span),
    include: { trolley: { select: { name: true } }, casting: CASTING },
    orderBy: [{ startsAt: "asc" }, { kg: "desc" }],
  });
}

/** Everybody whose work is among it. */
export function ownersOf({ loads, lifts }: DayWork): readonly string[] {
  const owners = [...loads.flatMap(({ firing }) => firing.castings.map(({ casting }) => casting.memberId)), ...lifts.map(({ casting }) => casting.memberId)];
  return [...new Set(owners)];
}

/** Only what carries a casting of this member. */
export function workOf({ loads, lifts }: DayWork, memberId: string): DayWork {
  return {
    loads: loads.filter(({ firing }) => firing.castings.some(({ casting }) => casting.memberId === memberId)),
    lifts: lifts.filter(({ casting }) => casting.memberId === memberId),
  };
}
