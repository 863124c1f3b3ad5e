import { paths } from "@/lib/contracts/paths";
import type { FeedEntry } from "@/lib/domain/feed/feed-entry";
import { toInstant } from "@/lib/server/clock";
import { ENTRY_WORDS, liftWords } from "@/lib/server/feeds/entry-words";
import type { Prisma } from "@/lib/server/prisma-client/client";
import { SHARED_TITLES, titleOf } from "@/lib/server/rows/firing-title";

const firing = { select: { endedReason: true, member: { select: { name: true } }, plan: { select: { castingId: true, casting: { select: { title: true, updatedAt: true } }, ...SHARED_TITLES } } } } as const;

/** A lift and a steam-out are of one casting, the rest of a run is for all that share it. */
const casting = { select: { title: true, updatedAt: true, memberId: true, member: { select: { name: true } } } } as const;

/** Only what is booked, or was: a hold is nothing to put into a calendar elsewhere. */
export const BOOKED = { firing: { status: { notIn: ["held", "lapsed"] } } } satisfies { firing: Prisma.FiringWhereInput };

export const BOOKING_PARTS = { equipment: { select: { name: true } }, firing, casting } as const satisfies Prisma.BookingInclude;
export const LIFT_PARTS = { trolley: { select: { name: true } }, firing, casting } as const satisfies Prisma.LiftInclude;

type BookingRow = Prisma.BookingGetPayload<{ include: typeof BOOKING_PARTS }>;
type LiftRow = Prisma.LiftGetPayload<{ include: typeof LIFT_PARTS }>;

/** @param whose names the member, for a calendar that is not their own */
export function bookingEntry(row: BookingRow, whose: boolean): FeedEntry {
  const { purpose, equipment } = row;
  return { ...common(row, purpose, whose), place: equipment.name, text: row.standing ? "" : (row.firing.endedReason ?? ""), busy: purpose !== "kiln" };
}

export function liftEntry(row: LiftRow, whose: boolean): FeedEntry {
  return { ...common(row, row.what, whose), place: row.what === "unload" ? row.fromPlace : row.toPlace, text: liftWords(row), busy: true };
}

function common(row: BookingRow | LiftRow, word: string, whose: boolean) {
  const { title, updatedAt } = row.casting ?? { title: titleOf(row.firing.plan), updatedAt: lastNamed(row.firing.plan) };
  return {
    id: row.entryId,
    sequence: row.sequence,
    // A casting that was given another name changes the entry's words, though not its time.
    changedAt: toInstant(row.changedAt > updatedAt ? row.changedAt : updatedAt),
    cancelled: !row.standing,
    title: `${ENTRY_WORDS[word] ?? word}: ${title}${whose ? `, ${(row.casting ?? row.firing).member.name}` : ""}`,
    path: paths.firing(row.firingId),
    start: toInstant(row.startsAt),
    end: toInstant(row.endsAt),
  };
}

/** When any of the castings in a title was last changed. */
function lastNamed({ casting: own, castings }: BookingRow["firing"]["plan"]): Date {
  return castings.reduce((last, one) => (one.casting.updatedAt > last ? one.casting.updatedAt : last), own.updatedAt);
}
