import type { Tx } from "@/lib/server/db";

/**
 * One change to a workshop's calendar after another, until this transaction ends. That no piece of
 * equipment is booked twice is held by a constraint; but hands on duty and kilowatts are sums over
 * rows that no constraint can hold, and two bookings that each leave enough of them may together
 * leave too little. Only commands that place bookings wait here; reading never does.
 */
export async function lockCalendar(tx: Tx, workshopId: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`${workshopId}:calendar`}, 0))`;
}
