import type { Temporal } from "temporal-polyfill";
import { nextStaffedDay } from "@/lib/domain/time/staffed-hours";
import { toDate } from "@/lib/server/clock";
import { query } from "@/lib/server/query";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { loadHours } from "@/lib/server/rows/workshop-hours";

export type SheetLift = {
  readonly liftId: string;
  readonly firingId: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly what: string;
  readonly casting: string;
  readonly owner: string;
  readonly kg: number;
  readonly hands: number;
  readonly trolley: string | null;
  readonly fromPlace: string;
  readonly toPlace: string;
  readonly mouldState: string;
  readonly hot: boolean;
  readonly wet: boolean;
  readonly flag: string;
  readonly why: string;
  /** Its run is held and not booked yet: it may not take place. */
  readonly onlyHeld: boolean;
};

export type LiftSheet = {
  /** ISO date, local to the workshop. */
  readonly day: string;
  readonly isDefault: boolean;
  readonly today: string;
  readonly handsOnDuty: readonly { readonly opensMin: number; readonly closesMin: number; readonly hands: number }[];
  readonly closedBecause: string | null;
  /** In order of time. */
  readonly lifts: readonly SheetLift[];
};

/** The lifts of one local day; without a day, of the next staffed day after today. */
export const liftSheet = query({
  name: "lift-sheet",
  needs: "see-lifts",
  run: async ({ who, tx, now }, wanted: Temporal.PlainDate | null): Promise<LiftSheet> => {
    const hours = await loadHours(tx, who);
    const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate();
    const day = wanted ?? nextStaffedDay(hours, today) ?? today.add({ days: 1 });
    const from = day.toZonedDateTime(who.timeZone).toInstant();
    const to = day.add({ days: 1 }).toZonedDateTime(who.timeZone).toInstant();
    const rows = await tx.lift.findMany({
      where: { standing: true, firing: notLapsed(now), startsAt: { lt: toDate(to) }, endsAt: { gt: toDate(from) } },
      include: {
        trolley: { select: { name: true } },
        firing: { select: { status: true } },
        casting: { select: { title: true, member: { select: { name: true } } } },
      },
      orderBy: [{ startsAt: "asc" }, { kg: "desc" }],
    });
    const closure = hours.closures.find((c) => c.from <= day.toString() && day.toString() <= c.to);
    return {
      day: day.toString(),
      isDefault: wanted === null,
      today: today.toString(),
      handsOnDuty: closure === undefined ? hours.weekly.filter((w) => w.weekday === day.dayOfWeek) : [],
      closedBecause: closure?.reason ?? null,
      lifts: rows.map(({ startsAt, endsAt, trolley, casting, firing, workshopId: _w, castingId: _c, trolleyId: _t, standing: _s, ...lift }) => ({
        ...lift,
        startMs: startsAt.getTime(),
        endMs: endsAt.getTime(),
        trolley: trolley?.name ?? null,
        casting: casting.title,
        onlyHeld: firing.status === "held",
        owner: casting.member.name,
      })),
    };
  },
});
