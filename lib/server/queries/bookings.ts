import { Temporal } from "temporal-polyfill";
import { BOOKING_WEEKS, type BookingsAnswer, type BookingsQuery } from "@/lib/contracts/api/bookings-answer";
import { firingStatus, purpose } from "@/lib/contracts/api/shared";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate, toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { cursorOf, readCursor, type BookingCursor } from "@/lib/server/rows/booking-cursor";
import { isIn } from "@/lib/server/rows/in-firing";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/** Standing bookings that touch the given days, by their start; a long list comes in pieces. */
export const listBookings = query({
  name: "bookings",
  needs: "see-workshop",
  run: async (reading: Reading, asked: BookingsQuery): Promise<Outcome<BookingsAnswer>> => {
    const { who, now } = reading;
    const from = asked.from === undefined ? now.toZonedDateTimeISO(who.timeZone).toPlainDate() : Temporal.PlainDate.from(asked.from);
    const to = asked.to === undefined ? from.add({ weeks: BOOKING_WEEKS }) : Temporal.PlainDate.from(asked.to);
    if (Temporal.PlainDate.compare(from, to) >= 0) {
      return refuse({ code: "ends-before-start", field: "to", value: to.toString(), allowed: `${from.add({ days: 1 }).toString()} or later`, message: `to is ${to.toString()}; it must be ${from.add({ days: 1 }).toString()} or later, because that day is not shown any more.` });
    }
    const after = asked.after === undefined ? undefined : readCursor(asked.after);
    if (after === null) return refuse({ code: "not-a-place", field: "after", value: asked.after, allowed: "next of an answer before", message: "after is not what an answer gave as next." });
    const rows = await load(reading, { ...asked, start: from.toZonedDateTime(who.timeZone).toInstant(), end: to.toZonedDateTime(who.timeZone).toInstant(), after });
    const shown = rows.slice(0, asked.limit);
    const last = shown.at(-1);
    return ok({
      timeZone: who.timeZone,
      from: from.toString(),
      to: to.toString(),
      bookings: shown.map((row) => line(row, who.memberId)),
      next: rows.length > asked.limit && last !== undefined ? cursorOf(last) : null,
    });
  },
});

type Wanted = Omit<BookingsQuery, "after"> & { readonly start: Temporal.Instant; readonly end: Temporal.Instant; readonly after: BookingCursor | undefined };

/** One more than was asked for, which tells that there are more. */
function load({ tx, who, now }: Reading, { start, end, equipmentId, mine, limit, after }: Wanted) {
  return tx.booking.findMany({
    where: {
      standing: true,
      startsAt: { lt: toDate(end) },
      endsAt: { gt: toDate(start) },
      ...(equipmentId === undefined ? {} : { equipmentId }),
      firing: { ...notLapsed(now), ...(mine === "true" ? { OR: [{ memberId: who.memberId }, { castings: { some: { standing: true, casting: { memberId: who.memberId } } } }] } : {}) },
      ...(after === undefined ? {} : { OR: [{ startsAt: { gt: after.startsAt } }, { startsAt: after.startsAt, bookingId: { gt: after.bookingId } }] }),
    },
    select: {
      bookingId: true, firingId: true, castingId: true, purpose: true, equipmentId: true, startsAt: true, endsAt: true,
      equipment: { select: { name: true } },
      firing: { select: { status: true, heldUntil: true, memberId: true, member: { select: { name: true } }, plan: { select: PLAN_TITLE }, castings: { where: { standing: true }, select: { casting: { select: { memberId: true, castingId: true, title: true } } } } } },
    },
    orderBy: [{ startsAt: "asc" }, { bookingId: "asc" }],
    take: limit + 1,
  });
}

type Row = Awaited<ReturnType<typeof load>>[number];

function line(row: Row, memberId: string): BookingsAnswer["bookings"][number] {
  const { firing } = row;
  return {
    bookingId: row.bookingId,
    firingId: row.firingId,
    castingId: row.castingId ?? firing.plan.castingId,
    title: firing.castings.find(({ casting }) => casting.castingId === row.castingId)?.casting.title ?? titleOf(firing.plan),
    owner: firing.member.name,
    mine: isIn(firing, memberId),
    status: firingStatus.parse(firing.status),
    heldUntil: firing.status === "held" && firing.heldUntil !== null ? toInstant(firing.heldUntil).toString() : null,
    purpose: purpose.parse(row.purpose),
    equipmentId: row.equipmentId,
    equipmentName: row.equipment.name,
    from: toInstant(row.startsAt).toString(),
    to: toInstant(row.endsAt).toString(),
  };
}
