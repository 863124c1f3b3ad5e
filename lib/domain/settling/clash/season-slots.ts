import type { ClashGround, Forbid, MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { NO_WISHES } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem, mergedStretches } from "@/lib/domain/settling/clash/clash-problem";
import { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import type { RunClock, SeasonClock } from "@/lib/domain/settling/clash/season-clock";
import { SlotPower } from "@/lib/domain/settling/clash/slot-power";
import { slotRoom, withStandingPower } from "@/lib/domain/settling/clash/slot-room";
import { LEAST_HELD_MS, staysFrom, withStanding, type Rounding, type SlotStays, type StayNeeds } from "@/lib/domain/settling/clash/slot-stays";
import { DEFAULT_WEIGHTS, weightsFor } from "@/lib/domain/settling/clash/weights";
import type { DayJob, DayPlacement, DayProblem } from "@/lib/domain/settling/days/day-problem";

/** Runs close behind each other may be pushed by so many days when they are placed to the quarter hour. */
export const SLACK_DAYS = 6;
/** Days after the season in which the last kilns come free, and Christmas may lie. */
const AFTERWARDS = 28;

export type ClockedGround = { readonly ground: ClashGround; readonly clock: SeasonClock };

/**
 * A season in parts of days, by what the hours of each day really allow: when a load can begin, when it is cool and
 * somebody is there to unload it, when the kiln is free again.
 *
 * As a "plan" it asks for at least what the hours ask for, so that what is found can nearly always be carried out.
 *
 * As a "bound" it asks for no more than they do, so that no plan to the quarter hour costs less than its least. For take
 * any such plan, and call the slot in which a run's loading begins its start. Let a be the first instant in that slot
 * at which the run could be loaded; it is loaded at a or later, so it is unloaded no sooner, and its kiln is free no
 * sooner, than from a: each of these steps waits for staffed hours, and one that begins later never ends earlier; others
 * in the way only delay. So its unloading is on the day given here or later, which costs no less; and whatever is loaded
 * next there begins in the slot given here or later, for that is the slot of the first lift there could be. Kilns are
 * thus held once at a time in slots too. Power is looked at once a slot (`SlotPower`). Loads and steamers are left out,
 * which only lets more plans in.
 *
 * Undefined for a bound when some kiln would be held for less than a day: then two loads could share a slot.
 */
export function seasonInSlots(season: ClockedGround, perDay: number, rounding: "plan", forbids?: readonly Forbid[]): DayProblem;
export function seasonInSlots(season: ClockedGround, perDay: number, rounding: "bound"): DayProblem | undefined;
export function seasonInSlots({ ground, clock }: ClockedGround, perDay: number, rounding: Rounding, forbids: readonly Forbid[] = []): DayProblem | undefined {
  const days = ground.handsOn.length;
  const slots = new DaySlots(clock, days + AFTERWARDS, perDay);
  const problem = clashProblem(ground, { ...NO_WISHES, forbids: rounding === "plan" ? forbids : [] }, weightsFor("season", DEFAULT_WEIGHTS));
  const known = new Map<string, SlotStays>();
  const stays = ground.runs.map((run) => staysOf(run, { ground, clock }, slots, rounding, known));
  if (rounding === "bound" && stays.flat().some((one) => one !== null && one.leastHeldMs < LEAST_HELD_MS)) return undefined;
  const left = new SlotPower(slots, rounding).left(clock);
  const jobs = problem.jobs.map((job, i) => inSlots(job, clock.runs.get(ground.runs[i]?.runId ?? ""), stays[i] ?? [], slots, rounding));
  const isBound = rounding === "bound";
  return {
    ...problem,
    perDay,
    horizon: slots.count,
    handsOn: slots.hands,
    steamWindow: problem.steamWindow * perDay,
    taken: takenSlots({ ground, clock }, slots, rounding),
    powerLeftKw: isBound ? left : withStandingPower(ground, left, jobs, perDay),
    jobs,
    ...(isBound ? { opsOn: slots.hands.map(() => 2 * jobs.length), steamsOn: slots.hands.map(() => 0) } : slotRoom(ground, slots, jobs)),
  };
}

/** What a plan in slots means in days, in the order in which it is loaded. */
export function inDays({ perDay, classOf, jobs }: DayProblem, placements: readonly DayPlacement[]): readonly DayPlacement[] {
  if (perDay === undefined) return placements;
  const day = (slot: number): number => Math.floor(slot / perDay);
  return placements.toSorted((a, b) => a.start - b.start).map((one) => ({ ...one, start: day(one.start), end: day(jobs[one.job]?.stays?.[classOf[one.kiln] ?? -1]?.unloaded[one.start] ?? one.end), steam: one.steam < 0 ? -1 : day(one.steam) }));
}

function staysOf(run: MovableRun, { ground, clock }: ClockedGround, slots: DaySlots, rounding: Rounding, known: Map<string, SlotStays>): (SlotStays | null)[] {
  const own = clock.runs.get(run.runId);
  return ground.kilns.map(({ kilnId }) => {
    const inKiln = own?.inKiln[kilnId];
    if (own === undefined || inKiln === undefined) return null;
    const needs: StayNeeds = { load: own.load, unload: own.unload, inKiln, turnaround: clock.turnaroundHours.get(kilnId) ?? 0 };
    const key = JSON.stringify(needs);
    const found = known.get(key) ?? staysFrom(slots, needs, rounding, ground.handsOn.length);
    known.set(key, found);
    return own.standing === null || run.standing?.kilnId !== kilnId ? found : withStanding(slots, found, own.standing, rounding, nextBegin({ ground, clock }, slots, kilnId, own.standing.free));
  });
}

function inSlots(job: DayJob, clock: RunClock | undefined, stays: readonly (SlotStays | null)[], slots: DaySlots, rounding: Rounding): DayJob {
  const { perDay } = slots;
  const isBound = rounding === "bound";
  const stood = clock?.standing ?? null;
  return {
    ...job,
    stays,
    daysByClass: stays.map((one) => (one === null ? 0 : leastHeld(one))),
    earliest: job.earliest * perDay,
    latest: job.latest === null ? null : (job.latest + (isBound ? SLACK_DAYS : 0) + 1) * perDay - 1,
    due: job.due * perDay,
    steams: job.steams && !isBound,
    hands: clock?.load.hands ?? job.hands,
    heatingDays: 0,
    standing: job.standing === null || stood === null ? null : { ...job.standing, start: slots.slotOf(stood.loading) },
    ...(job.unwanted === undefined ? {} : { unwanted: job.unwanted.map(({ cls, from, to }) => ({ cls, from: from * perDay, to: to * perDay })) }),
    ...(job.quiet === undefined ? {} : { quiet: { ...job.quiet, before: job.quiet.before * perDay } }),
  };
}

/** In slots; 0 when it is possible from none. */
function leastHeld({ free }: SlotStays): number {
  const least = free.reduce((sofar, again, slot) => (again < 0 ? sofar : Math.min(sofar, again - slot)), Infinity);
  return least === Infinity ? 0 : Math.max(1, least);
}

/** The slot in which the first thing that stands on a kiln, at or after an instant, begins. */
function nextBegin({ ground, clock }: ClockedGround, slots: DaySlots, kilnId: string, t: number): number {
  const standing = ground.runs.flatMap(({ runId, standing }) => (standing?.kilnId === kilnId ? [clock.runs.get(runId)?.standing?.loading ?? Infinity] : []));
  const begin = Math.min(...[...standing, ...clock.taken.filter((one) => one.kilnId === kilnId).map(({ from }) => from)].filter((from) => from >= t));
  return begin === Infinity ? slots.count : slots.slotOf(begin);
}

/** A stretch that is taken, for a plan no smaller than it is, for a bound no larger. */
function takenSlots(season: ClockedGround, slots: DaySlots, rounding: Rounding): DayProblem["taken"] {
  const { kilns } = season.ground;
  const { taken } = season.clock;
  const index = new Map(kilns.map(({ kilnId }, i) => [kilnId, i]));
  return mergedStretches(kilns.length, taken.flatMap(({ kilnId, from, to }) => {
    const kiln = index.get(kilnId);
    if (kiln === undefined) return [];
    return [rounding === "bound" ? { kiln, from: slots.reachedBy(from), to: slots.reachedBy(to) } : { kiln, from: slots.slotOf(from), to: Math.min(nextBegin(season, slots, kilnId, to), slots.beginningFrom(to)) }];
  }));
}
