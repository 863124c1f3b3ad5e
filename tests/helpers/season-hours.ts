import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import type { MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import type { KilnHours, RunClock, SeasonClock } from "@/lib/domain/settling/clash/season-clock";
import type { ClockedGround } from "@/lib/domain/settling/clash/season-slots";
import { season } from "@/lib/domain/settling/clash/season";
import { windowsOfDay, type Weekday, type WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { run } from "@/tests/helpers/clash";

const ZONE = "Europe/Copenhagen";
/** A Thursday before the clocks change. */
const TODAY = Temporal.PlainDate.from("2027-03-25");
const DAYS = 30;
const QUARTER = 15 * 60_000;
const HOUR = 4 * QUARTER;
const KILNS = ["west", "east"] as const;
const POWER_KW = 9;

/** A kiln cools after it has heated. */
function kilnHours(cools: fc.Arbitrary<number>): fc.Arbitrary<KilnHours> {
  return fc.record({ cools, heats: fc.integer({ min: 5, max: 40 }) }).map((one) => ({ ...one, heats: Math.min(one.heats, one.cools - 1) }));
}

const smallRun = fc.record({
  load: fc.record({ minutes: fc.constantFrom(30, 45, 90), hands: fc.constantFrom(1, 2) }),
  unload: fc.record({ minutes: fc.constantFrom(30, 60), hands: fc.constantFrom(1, 2) }),
  inKiln: fc.record({ west: kilnHours(fc.integer({ min: 24, max: 90 })), east: kilnHours(fc.double({ min: 24, max: 90, noNaN: true })) }),
  earliest: fc.integer({ min: 1, max: 6 }),
  neededBy: fc.integer({ min: 3, max: 20 }),
  importance: fc.integer({ min: 1, max: 3 }),
  /** Booked: on which kiln, from when, how long it waits there for somebody after it is cool, and whether it is right behind what was booked before. */
  stands: fc.option(fc.record({ kilnId: fc.constantFrom(...KILNS), day: fc.integer({ min: 1, max: 9 }), hour: fc.integer({ min: 0, max: 23 }), waits: fc.constantFrom(0, 3, 50), behind: fc.boolean() })),
});

const smallHours: fc.Arbitrary<WorkshopHours> = fc.record({
  weekdays: fc.subarray<Weekday>([1, 2, 3, 4, 5, 6, 7], { minLength: 3 }),
  opensMin: fc.constantFrom(480, 555),
  hoursOpen: fc.constantFrom(4, 8, 12),
  split: fc.boolean(),
  closed: fc.constantFrom("2027-03-29", "2027-04-06", "2027-04-07"),
}).map(({ weekdays, opensMin, hoursOpen, split, closed }) => {
  const closesMin = opensMin + 60 * hoursOpen;
  const noon = opensMin + 30 * hoursOpen;
  const weekly = weekdays.flatMap((weekday) => (split ? [{ weekday, opensMin, closesMin: noon - 30, hands: 2 }, { weekday, opensMin: noon + 30, closesMin, hands: 3 }] : [{ weekday, opensMin, closesMin, hands: 2 }]));
  return { timeZone: ZONE, weekly, closures: [{ from: closed, to: closed, reason: "stocktaking" }] };
});

/** Two kilns, up to four asks and bookings with lengths by the clock, one kiln out for a while, at times power for one kiln only. */
export const smallSeason: fc.Arbitrary<ClockedGround> = fc
  .record({ hours: smallHours, runs: fc.array(smallRun, { minLength: 1, maxLength: 4 }), turnaround: fc.constantFrom(0, 2, 14), outFrom: fc.integer({ min: 0, max: 200 }), outFor: fc.integer({ min: 1, max: 90 }), limited: fc.boolean() })
  .map(({ hours, runs, turnaround, outFrom, outFor, limited }) => {
    const days = season(hours, TODAY, { from: TODAY, to: TODAY.add({ days: DAYS - 1 }) });
    const begins = TODAY.toZonedDateTime(ZONE).epochMilliseconds;
    const own = runs.map(({ stands: _stands, ...one }, i) => run(`piece ${i}`, { ...one, heatingDays: Math.ceil(Math.max(one.inKiln.west.heats, one.inKiln.east.heats) / 24) + 1, daysByKiln: { west: Math.ceil(one.inKiln.west.cools / 24), east: Math.ceil(one.inKiln.east.cools / 24) } }));
    const asked: ClockedGround = {
      ground: {
        kilns: KILNS.map((kilnId) => ({ kilnId, name: `${kilnId} kiln`, powerKw: POWER_KW })), runs: own, taken: [],
        handsOn: days.handsOn, liftsOn: days.handsOn.map((hands) => (hands > 0 ? 20 : 0)), steamersOn: days.handsOn.map(() => 0), steamWindow: 21,
        powerLeftKw: limited ? days.handsOn.map(() => POWER_KW) : null,
      },
      clock: {
        hours,
        firstDay: Temporal.PlainDate.from("1970-01-01").until(TODAY, { largestUnit: "days" }).days,
        turnaroundHours: new Map(KILNS.map((kilnId) => [kilnId, turnaround])),
        runs: new Map(runs.map(({ load, unload, inKiln }, i): [string, RunClock] => [`piece ${i}`, { load, unload, inKiln, standing: null }])),
        taken: [{ kilnId: "west", from: begins + outFrom * HOUR, to: begins + (outFrom + outFor) * HOUR }],
        power: limited ? { limitKw: POWER_KW, heating: [] } : null,
      },
    };
    return booked(asked, runs.map(({ stands }) => stands));
  });

/** Some of them as they are booked, whatever that clashes with. */
function booked(season: ClockedGround, stands: readonly ({ readonly kilnId: string; readonly day: number; readonly hour: number; readonly waits: number; readonly behind: boolean } | null)[]): ClockedGround {
  const { ground, clock } = season;
  const clocks = new Map(clock.runs);
  const freeAt = new Map<string, number>();
  const runs = ground.runs.map((one, i) => {
    const where = stands[i] ?? null;
    if (where === null) return one;
    const place = placedFrom(season, one, where.kilnId, (where.behind ? freeAt.get(where.kilnId) : undefined) ?? instantOf(where.day, where.hour));
    const own = clock.runs.get(one.runId) as RunClock;
    const unloading = firstStaffed(clock, place.unloading + where.waits * HOUR, own.unload);
    const free = unloading + place.free - place.unloading;
    clocks.set(one.runId, { ...own, standing: { loading: place.loading, unloading, free } });
    freeAt.set(where.kilnId, free);
    const day = dayIn(clock, place.closed);
    return { ...one, firmness: "booked" as const, earliest: Math.min(one.earliest, day), standing: { kilnId: where.kilnId, day } };
  });
  return { ground: { ...ground, runs }, clock: { ...clock, runs: clocks } };
}

function instantOf(day: number, hour: number): number {
  return TODAY.toZonedDateTime(ZONE).epochMilliseconds + (day * 24 + hour) * HOUR;
}

/** Where a booked run stands. */
export function standingPlace(season: ClockedGround, one: MovableRun): HourPlace | undefined {
  const { standing, inKiln, load, unload } = season.clock.runs.get(one.runId) as RunClock;
  if (standing === null || one.standing === null) return undefined;
  const { kilnId } = one.standing;
  const closed = standing.loading + load.minutes * 60_000;
  return { run: one, kilnId, ...standing, closed, unloaded: standing.unloading + unload.minutes * 60_000, heated: closed + (inKiln[kilnId]?.heats ?? 0) * HOUR };
}

export type HourPlace = { readonly run: MovableRun; readonly kilnId: string; readonly loading: number; readonly closed: number; readonly unloading: number; readonly unloaded: number; readonly free: number; readonly heated: number };

export function dayIn({ hours, firstDay }: SeasonClock, epochMs: number): number {
  const date = Temporal.Instant.fromEpochMilliseconds(Math.floor(epochMs)).toZonedDateTimeISO(hours.timeZone).toPlainDate();
  return Temporal.PlainDate.from("1970-01-01").until(date, { largestUnit: "days" }).days - firstDay;
}

/** The first quarter hour from an instant on at which people enough are there throughout, looked for in the hours themselves. */
function firstStaffed({ hours }: SeasonClock, from: number, { minutes, hands }: { readonly minutes: number; readonly hands: number }): number {
  let date = Temporal.Instant.fromEpochMilliseconds(Math.floor(from)).toZonedDateTimeISO(hours.timeZone).toPlainDate();
  for (let days = 0; days < 60; days++, date = date.add({ days: 1 })) {
    for (const window of windowsOfDay(hours, date)) {
      if (window.hands < hands) continue;
      let t = window.start.epochMilliseconds;
      while (t < from) t += QUARTER;
      if (t + minutes * 60_000 <= window.end.epochMilliseconds) return t;
    }
  }
  throw new Error("nobody comes for two months");
}

/** One run whose loading begins at the first hour there is from an instant on, whatever else stands. */
export function placedFrom({ clock }: ClockedGround, one: MovableRun, kilnId: string, from: number): HourPlace {
  const { load, unload, inKiln } = clock.runs.get(one.runId) as RunClock;
  const { cools = 0, heats = 0 } = inKiln[kilnId] ?? {};
  const loading = firstStaffed(clock, from, load);
  const closed = loading + load.minutes * 60_000;
  const unloading = firstStaffed(clock, closed + cools * HOUR, unload);
  const unloaded = unloading + unload.minutes * 60_000;
  return { run: one, kilnId, loading, closed, unloading, unloaded, free: unloaded + (clock.turnaroundHours.get(kilnId) ?? 0) * HOUR, heated: closed + heats * HOUR };
}

/** Two on one kiln, in its outage, or more heating than there is power for. */
export function areInTheWay({ clock }: ClockedGround, one: HourPlace, other: HourPlace): boolean {
  if (one.kilnId === other.kilnId && one.loading < other.free && other.loading < one.free) return true;
  return clock.power !== null && one.closed < other.heated && other.closed < one.heated;
}

export function isOut({ clock }: ClockedGround, { kilnId, loading, free }: HourPlace): boolean {
  return clock.taken.some((stretch) => stretch.kilnId === kilnId && loading < stretch.to && stretch.from < free);
}

/**
 * A plan to the quarter hour: what is drawn to stay stays where it can, then each other run in turn gets a kiln and a day
 * that are drawn, or the first after it that is free and not its own day on its own kiln.
 */
export function anyHourPlan(season: ClockedGround, draws: readonly { readonly west: boolean; readonly stays: boolean; readonly day: number; readonly hour: number }[]): HourPlace[] {
  const done: HourPlace[] = [];
  const isFree = (place: HourPlace): boolean => !isOut(season, place) && !done.some((other) => areInTheWay(season, place, other));
  const staying = season.ground.runs.flatMap((one, i) => (draws[i]?.stays === true ? [standingPlace(season, one)] : [])).filter((place) => place !== undefined);
  for (const place of staying) if (isFree(place)) done.push(place);
  season.ground.runs.forEach((one, i) => {
    if (done.some(({ run }) => run === one)) return;
    const { west, day, hour } = draws[i] ?? { west: true, day: 0, hour: 0 };
    let from = instantOf(one.earliest + day, hour);
    const isOwn = (place: HourPlace): boolean => one.standing?.kilnId === place.kilnId && one.standing.day === dayIn(season.clock, place.closed);
    let place = placedFrom(season, one, west ? "west" : "east", from);
    while (!isFree(place) || isOwn(place) || dayIn(season.clock, place.closed) < one.earliest) place = placedFrom(season, one, place.kilnId, (from = Math.max(from, place.loading) + QUARTER));
    done.push(place);
  });
  return season.ground.runs.map((one) => done.find(({ run }) => run === one) as HourPlace);
}
