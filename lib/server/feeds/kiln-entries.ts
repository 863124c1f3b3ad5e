import type { Temporal } from "temporal-polyfill";
import { currentRows, isStillTold, PAST_DAYS, type FeedEntry } from "@/lib/domain/feed/feed-entry";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { closureEntries, outageEntries } from "@/lib/server/feeds/standstill-entries";
import { BOOKED, BOOKING_PARTS, bookingEntry } from "@/lib/server/feeds/run-entries";

type Kiln = { readonly equipmentId: string; readonly name: string };

/** A kiln's bookings with whose they are, its outages, and the days on which nobody is there to load or unload it. */
export async function kilnEntries(tx: Tx, kiln: Kiln, now: Temporal.Instant, timeZone: string): Promise<readonly FeedEntry[]> {
  const { equipmentId } = kiln;
  const since = now.subtract({ hours: PAST_DAYS * 24 });
  const recent = await tx.booking.findMany({ where: { equipmentId, endsAt: { gt: toDate(since) } }, select: { firingId: true }, distinct: ["firingId"] });
  // Only rows of this kiln: a run that moved to another one is cancelled here.
  const bookings = await tx.booking.findMany({ where: { ...BOOKED, equipmentId, firingId: { in: recent.map(({ firingId }) => firingId) } }, include: BOOKING_PARTS });
  return [
    ...currentRows(bookings).filter((row) => isStillTold(toInstant(row.endsAt), !row.standing, now)).map((row) => bookingEntry(row, true)),
    ...(await outageEntries(tx, kiln, now, timeZone)),
    ...(await closureEntries(tx, since, timeZone)),
  ];
}
