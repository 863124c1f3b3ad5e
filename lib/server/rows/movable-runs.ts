import { Temporal } from "temporal-polyfill";
import type { StandingRun } from "@/lib/domain/booking/clash";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import type { MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { daysUntilUnloaded, type Season } from "@/lib/domain/settling/clash/season";
import { liftingOf, type KilnHours, type RunClock } from "@/lib/domain/settling/clash/season-clock";
import { toPlainDate } from "@/lib/server/clock";
import type { Reading } from "@/lib/server/query";
import { steamOutEnds } from "@/lib/server/joining/place-shared";
import { daysOf, hoursInKilns, type KilnTakers } from "@/lib/server/rows/days-in-kilns";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { firstDayOf } from "@/lib/server/rows/waiting-asks";

/** A booked run matters as much as an ask of the middle importance. */
const BOOKED_IMPORTANCE = 2;
/** Nothing that stands is pulled forward to before this day: people need notice. */
const FIRST_DAY = 2;
/** Room to unload at the end of the season. */
const LAST_WEEK = 7;

export function kilnBooking(run: StandingRun) {
  const kiln = run.bookings.find(({ purpose }) => purpose === "kiln");
  if (kiln === undefined) throw new Error(`firing ${run.firingId} holds no kiln`);
  return kiln;
}

export const kilnStart = (run: StandingRun): Temporal.Instant => kilnBooking(run).start;

/** The days on which the door closes and the kiln is unloaded. */
export function heldDays(run: StandingRun, days: Season): { readonly from: number; readonly unload: number } {
  const kiln = kilnBooking(run);
  const unload = run.bookings.find(({ purpose }) => purpose === "unload")?.start ?? kiln.end;
  return { from: days.dayOf(kiln.start), unload: days.dayOf(unload) };
}

/** A booked run with where else it could stand, for how many hours. */
export function movableRun(run: StandingRun, firing: LockedFiring, elsewhere: Readonly<Record<string, KilnHours>>, days: Season, now: Temporal.Instant): MovableRun {
  const held = heldDays(run, days);
  const closed = kilnStart(run);
  const cool = days.dayOf(closed.add({ minutes: Math.floor(run.plannedHours * 60) }));
  const own = daysUntilUnloaded(days, { closed: held.from, cool, unloaded: Math.max(cool, held.unload) });
  const steamed = [...steamOutEnds(firing, now).values()];
  const open = run.bookings.filter(({ purpose, start }) => purpose === "steam-out" && Temporal.Instant.compare(start, now) > 0);
  const { neededBy } = firing.plan.casting;
  return {
    runId: run.firingId,
    title: run.title,
    memberName: run.ownerName,
    firmness: steamed.length > 0 ? "promised" : "booked",
    standing: { kilnId: run.kilnId, day: held.from },
    daysByKiln: { ...daysOf(elsewhere), [run.kilnId]: own },
    earliest: Math.min(held.from, Math.max(FIRST_DAY, days.opens)),
    latest: steamed.length === 0 ? null : Math.max(held.from, Math.min(...steamed.map((end) => days.dayOf(end))) + MAX_DAYS_FROM_STEAM_TO_LOAD),
    neededBy: neededBy === null ? null : dayOfDate(days, neededBy),
    importance: BOOKED_IMPORTANCE,
    steams: open.length > 0 && open.every(({ start }) => days.dayOf(start) < held.from),
    hands: Math.max(1, ...run.bookings.filter(({ purpose }) => purpose === "load" || purpose === "unload").map(({ hands }) => hands)),
    heatingDays: Math.max(1, Math.min(own, Math.ceil(run.heatingHours / 24))),
  };
}

type Asking = {
  readonly tx: Reading["tx"];
  readonly takers: KilnTakers;
  readonly days: Season;
  /** With those that name no weeks too. */
  readonly all: boolean;
};

/** Asks as runs to be placed, and in a sentence each those that are left out of the season. */
export type AskedRuns = { readonly runs: readonly MovableRun[]; readonly clocks: ReadonlyMap<string, RunClock>; readonly aside: readonly string[] };

/**
 * The open asks, each for any kiln that takes its casting: those that name weeks, or all of them. Who names none waits
 * in the order of asks for time that becomes free, unless a whole season is settled; who holds an offer has theirs.
 */
export async function askedRuns({ tx, takers, days, all }: Asking): Promise<AskedRuns> {
  const rows = await tx.ask.findMany({
    where: { status: "open", ...(all ? {} : { wishedFrom: { not: null } }), casting: { firings: { none: { standing: true } } } },
    include: { casting: true, member: { select: { name: true } } }, orderBy: { askId: "asc" },
  });
  const runs: MovableRun[] = [];
  const clocks = new Map<string, RunClock>();
  const aside: string[] = [];
  for (const row of rows) {
    const { askId, casting, member, importance } = row;
    const hours = await hoursInKilns(takers, casting);
    const lengths = daysOf(hours);
    const plan = await takers.general(casting);
    const needed = row.neededBy ?? casting.neededBy;
    const first = firstDayOf({ ...row, notBefore: row.wishedFrom === null ? row.notBefore : null }, days.timeZone);
    const earliest = Math.max(1, days.opens, first === null ? 1 : days.today.until(first, { largestUnit: "days" }).days);
    const fits = Object.keys(lengths).length > 0;
    if (plan !== undefined) clocks.set(askId, { ...liftingOf(plan), inKiln: hours, standing: null });
    if (all && !fits) aside.push(`${casting.title}: no kiln takes it.`);
    // What is wished for later than this season is settled when it comes near.
    else if (fits && earliest + Math.min(...Object.values(lengths)) + LAST_WEEK >= days.length) aside.push(`${casting.title}: asked for later than the season reaches.`);
    else runs.push({
      runId: askId,
      title: casting.title,
      memberName: member.name,
      firmness: "ask",
      standing: null,
      daysByKiln: lengths,
      earliest,
      latest: null,
      neededBy: needed === null ? null : dayOfDate(days, needed),
      importance,
      steams: (plan?.steamOut.hours ?? 0) > 0,
      hands: Math.max(1, ...(plan?.lifts ?? []).map(({ hands }) => hands)),
      heatingDays: Math.max(1, Math.min(Math.ceil(plan === undefined ? 0 : heatingHours(plan.firing.stages) / 24), ...Object.values(lengths))),
    });
  }
  return { runs, clocks, aside };
}

function dayOfDate({ today }: Season, date: Date): number {
  return today.until(toPlainDate(date), { largestUnit: "days" }).days;
}
