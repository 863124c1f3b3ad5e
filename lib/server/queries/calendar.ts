import { Temporal } from "temporal-polyfill";
import type { CalendarEntry, CalendarOf, CalendarPurpose, CalendarScreen } from "@/lib/contracts/calendar";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import { hoursInSight } from "@/lib/domain/time/hours-in-sight";
import { showTime } from "@/lib/domain/time/show-time";
import { fromPlainDate, toDate, toInstant, toPlainDate } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";
import { isIn } from "@/lib/server/rows/in-firing";

export type CalendarWish = { readonly of: CalendarOf; readonly around: Temporal.PlainDate | null };

/** How far before and after the day in question bookings are read. */
const MONTHS = 6;

type Window = { readonly from: Temporal.Instant; readonly to: Temporal.Instant; readonly fromDay: Temporal.PlainDate; readonly toDay: Temporal.PlainDate };

/** Bookings, outages and closures of six months before and after a day, by default today. */
export const calendarScreen = query({
  name: "calendar",
  needs: "see-workshop",
  run: async (reading: Reading, { of, around }: CalendarWish): Promise<CalendarScreen> => {
    const { who, tx, now } = reading;
    const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate();
    const window = windowAround(around ?? today, who.timeZone);
    const hours = await loadHours(tx, who);
    const bookings = await bookingsIn(reading, window, of);
    const outages = await outagesIn(reading, window);
    const timed = [...bookings, ...outages].map((one) => ({ start: Temporal.Instant.fromEpochMilliseconds(one.startMs), end: Temporal.Instant.fromEpochMilliseconds(one.endMs) }));
    return {
      today: today.toString(),
      fromDay: window.fromDay.toString(),
      toDay: window.toDay.toString(),
      hours: hoursInSight(hours, timed),
      entries: [...bookings, ...outages, ...(await closuresIn(reading, window))],
    };
  },
});

function windowAround(day: Temporal.PlainDate, timeZone: string): Window {
  const fromDay = day.subtract({ months: MONTHS }).with({ day: 1 });
  const toDay = day.add({ months: MONTHS + 1 }).with({ day: 1 });
  return { fromDay, toDay, from: fromDay.toZonedDateTime(timeZone).toInstant(), to: toDay.toZonedDateTime(timeZone).toInstant() };
}

const PURPOSE_WORDS: Readonly<Record<string, { readonly purpose: CalendarPurpose; readonly word: string }>> = {
  "steam-out": { purpose: "steam-out", word: "Steam out" },
  load: { purpose: "load", word: "Load" },
  kiln: { purpose: "kiln", word: "Kiln" },
  unload: { purpose: "unload", word: "Unload" },
};

type Timed = CalendarEntry & { readonly startMs: number; readonly endMs: number };

async function bookingsIn({ who, tx, now }: Reading, { from, to }: Window, of: CalendarOf): Promise<readonly Timed[]> {
  const rows = await tx.booking.findMany({
    where: { standing: true, startsAt: { lt: toDate(to) }, endsAt: { gt: toDate(from) }, firing: { ...notLapsed(now), ...(of === "mine" ? { OR: [{ memberId: who.memberId }, { castings: { some: { standing: true, casting: { memberId: who.memberId } } } }] } : {}) } },
    select: {
      bookingId: true, purpose: true, startsAt: true, endsAt: true, firingId: true, equipment: { select: { name: true } }, casting: { select: { title: true } },
      firing: { select: { status: true, heldUntil: true, memberId: true, member: { select: { name: true } }, plan: { select: PLAN_TITLE }, castings: { where: { standing: true }, select: { casting: { select: { memberId: true } } } } } },
    },
    orderBy: { startsAt: "asc" },
  });
  return rows.flatMap((row): Timed[] => {
    const known = PURPOSE_WORDS[row.purpose];
    if (known === undefined) return [];
    const mine = isIn(row.firing, who.memberId);
    const whose = `${row.firing.member.name}${row.firing.memberId === who.memberId ? " (you)" : mine ? " (with you)" : ""}`;
    const onKiln = known.purpose === "kiln" ? ` · ${row.equipment.name}` : "";
    const held = row.firing.status === "held" && row.firing.heldUntil !== null ? `Held until ${showTime(toInstant(row.firing.heldUntil), who.timeZone)}. ` : "";
    return [{
      id: row.bookingId,
      purpose: known.purpose,
      title: `${held}${known.word}: ${row.casting?.title ?? titleOf(row.firing.plan)}, ${whose}${onKiln}`,
      place: row.equipment.name,
      mine,
      href: paths.firing(row.firingId),
      startMs: row.startsAt.getTime(),
      endMs: row.endsAt.getTime(),
    }];
  });
}

async function outagesIn({ who, tx }: Reading, { from, to }: Window): Promise<readonly Timed[]> {
  const rows = await tx.outage.findMany({
    where: { withdrawnAt: null, startsAt: { lt: toDate(to) }, OR: [{ endsAt: null }, { endsAt: { gt: toDate(from) } }] },
    include: { equipment: { select: { name: true } } },
    orderBy: { startsAt: "asc" },
  });
  return rows.map((row) => ({
    id: row.outageId,
    purpose: "outage",
    title: `Out of service: ${row.equipment.name}, ${row.reason}${row.endsAt === null ? " (no end known)" : ""}`,
    place: row.equipment.name,
    mine: false,
    href: can(who.roles, "manage-equipment") ? paths.oneEquipment(row.equipmentId) : null,
    startMs: toInstant(row.startsAt).epochMilliseconds,
    endMs: row.endsAt?.getTime() ?? to.epochMilliseconds,
  }));
}

async function closuresIn({ who, tx }: Reading, { fromDay, toDay }: Window): Promise<readonly CalendarEntry[]> {
  const rows = await tx.closure.findMany({
    where: { fromDate: { lt: fromPlainDate(toDay) }, toDate: { gte: fromPlainDate(fromDay) } },
    orderBy: { fromDate: "asc" },
  });
  return rows.map((row) => ({
    id: row.closureId,
    purpose: "closure",
    title: /^closed\b/i.test(row.reason) ? row.reason : `Closed: ${row.reason}`,
    place: null,
    mine: false,
    href: can(who.roles, "manage-hours") ? paths.hours : null,
    fromDay: toPlainDate(row.fromDate).toString(),
    toDay: toPlainDate(row.toDate).toString(),
  }));
}
