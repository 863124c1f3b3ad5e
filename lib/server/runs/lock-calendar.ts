import { lapseHolds } from "@/lib/server/runs/lapse-holds";
import type { Telling } from "@/lib/server/tell";

/**
 * One change to a workshop's calendar after another, until this transaction ends. That no piece of
 * equipment is booked twice is held by a constraint; but hands on duty and kilowatts are sums over
 * rows that no constraint can hold, and two bookings that each leave enough of them may together
 * leave too little. Only commands that place bookings wait here; reading never does. Holds that are
 * over are gone when this returns, whether or not their jobs have run.
 */
export async function lockCalendar(telling: Telling): Promise<void> {
  await telling.tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`${telling.who.workshopId}:calendar`}, 0))`;
  await lapseHolds(telling);
}
