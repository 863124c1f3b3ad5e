import type { Temporal } from "temporal-polyfill";
import { currentRows, isStillTold, PAST_DAYS, type FeedEntry } from "@/lib/domain/feed/feed-entry";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { BOOKED, BOOKING_PARTS, bookingEntry, LIFT_PARTS, liftEntry } from "@/lib/server/feeds/run-entries";

/** Where the lifts of a person's own runs are told, the trolley's booking would say the same again. */
const PURPOSES = ["kiln", "steam-out"];

/**
 * A person's own runs: steamer, kiln, and every lift of theirs. An assistant is wanted for every lift of the workshop.
 */
export async function personEntries(tx: Tx, member: { readonly memberId: string; readonly roles: readonly string[] }, now: Temporal.Instant): Promise<readonly FeedEntry[]> {
  const { memberId } = member;
  const endsAt = { gt: toDate(now.subtract({ hours: PAST_DAYS * 24 })) };
  const own = await tx.firing.findMany({ where: { OR: [{ memberId }, { castings: { some: { casting: { memberId }, OR: [{ standing: true }, { firing: { status: { in: ["cancelled", "released"] } } }] } } }], bookings: { some: { endsAt } } }, select: { firingId: true } });
  const helps = member.roles.includes("assistant");
  const everybodys = helps ? await tx.lift.findMany({ where: { endsAt }, select: { firingId: true }, distinct: ["firingId"] }) : [];
  const ids = own.map(({ firingId }) => firingId);
  const idsWithLifts = [...new Set([...ids, ...everybodys.map(({ firingId }) => firingId)])];
  const bookings = await tx.booking.findMany({ where: { ...BOOKED, firingId: { in: ids }, purpose: { in: PURPOSES }, OR: [{ castingId: null }, { casting: { memberId } }] }, include: BOOKING_PARTS });
  const lifts = await tx.lift.findMany({ where: { ...BOOKED, firingId: { in: idsWithLifts }, ...(helps ? {} : { casting: { memberId } }) }, include: LIFT_PARTS });
  const told = (row: { readonly endsAt: Date; readonly standing: boolean }) => isStillTold(toInstant(row.endsAt), !row.standing, now);
  return [
    ...currentRows(bookings).filter(told).map((row) => bookingEntry(row, false)),
    ...currentRows(lifts).filter(told).map((row) => liftEntry(row, row.casting.memberId !== memberId)),
  ];
}
