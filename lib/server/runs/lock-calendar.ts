import { toDate } from "@/lib/server/clock";
import { lapseHolds } from "@/lib/server/runs/lapse-holds";
import { sql, type Sql } from "@/lib/server/statements";
import type { Telling } from "@/lib/server/tell";

/**
 * One change to a workshop's calendar after another, until this transaction ends. That no piece of
 * equipment is booked twice is held by a constraint; but hands on duty and kilowatts are sums over
 * rows that no constraint can hold, and two bookings that each leave enough of them may together
 * leave too little. Booking a new run shares this lock with others that do; reading never waits. Holds that are
 * over are gone when this returns, whether or not their jobs have run.
 */
export async function lockCalendar(telling: Telling): Promise<void> {
  await telling.tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`${telling.who.workshopId}:calendar`}, 0))`;
  await lapseHolds(telling);
}

/**
 * Beside others who do the same, and only while nobody changes the calendar as a whole: for commands that then lock
 * each part of it that they need (holdRun). Where a hold is over and must go first, nobody else is beside.
 */
export async function shareCalendar(telling: Telling): Promise<void> {
  const [isOver, share] = shareStatements(telling);
  const rows = await telling.tx.$queryRaw<{ readonly over: boolean }[]>(isOver);
  if (rows[0]?.over === true) return lockCalendar(telling);
  await telling.tx.$executeRaw(share);
}

/** What `shareCalendar` asks, in this order. */
export function shareStatements({ now, who }: Omit<Telling, "tx">): readonly [isOver: Sql, share: Sql] {
  return [
    sql`/* prepared */ SELECT EXISTS (SELECT FROM firing WHERE status = 'held' AND held_until <= ${toDate(now)}) AS over`,
    sql`/* prepared */ SELECT pg_advisory_xact_lock_shared(hashtextextended(${`${who.workshopId}:calendar`}, 0))`,
  ];
}
