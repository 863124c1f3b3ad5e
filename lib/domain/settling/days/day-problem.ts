/** A stretch of whole days in which a kiln is taken, half-open. */
export type TakenDays = { readonly kiln: number; readonly from: number; readonly to: number };

/** A run that stands on the calendar and may be moved, with what moving it costs. */
export type StandingPlace = {
  readonly kiln: number;
  /** The day it is loaded. */
  readonly start: number;
  /** Cost of being moved at all, to another day or to a kiln of another class; 0 when left out. */
  readonly moved?: number;
  /** Cost of another start day, once. */
  readonly fix: number;
  /** Cost of every day between the old start and the new one. */
  readonly slope: number;
  /** Cost of a kiln of another class. */
  readonly otherClass: number;
};

/** What follows on one kiln from the start of each load, where the hours of the days are known; −1 where it cannot be loaded. */
export type Stays = {
  /** From when on the kiln may be loaded again; never sooner for a later start. */
  readonly free: Int16Array;
  /** When it is unloaded, which is what a needed-by day is held against. */
  readonly unloaded: Int16Array;
  /** For how long, from the start on, the kiln counts with its power. */
  readonly heats: Int16Array;
};

/** Loads that are not wanted: on days from `from` up to before `to`, on kilns of one class or on any. */
export type UnwantedLoad = { readonly cls: number | null; readonly from: number; readonly to: number };

/** One run to be placed, standing or asked for. Days count from 0. */
export type DayJob = {
  readonly name: string;
  /** Days in the kiln, by class of kiln; 0 where it does not fit. */
  readonly daysByClass: readonly number[];
  /** By class of kiln, instead of a length that is the same from every start; null where it does not fit. */
  readonly stays?: readonly (Stays | null)[];
  /** First day on which it may be loaded. */
  readonly earliest: number;
  /** Last day on which it may be loaded: a steamed mould waits only so long. Null: any. */
  readonly latest: number | null;
  readonly due: number;
  readonly weight: number;
  /** True when the wax is still to be steamed out before loading. */
  readonly steams: boolean;
  readonly standing: StandingPlace | null;
  /** People needed to load and to unload. */
  readonly hands: number;
  readonly unwanted?: readonly UnwantedLoad[];
  /** Cost of a change that touches the days before `before`: loading there, or no longer loading there. */
  readonly quiet?: { readonly before: number; readonly price: number };
  /** From door closed, the days on which the kiln counts with its full power. */
  readonly heatingDays: number;
};

/**
 * Runs that compete for kilns, in whole days. A run is loaded on a staffed day s and unloaded on the
 * first staffed day e at or after s + days; the kiln is its own on [s, e) and may be loaded again on
 * day e. Loads and unloads of a day are at most `opsOn[day]`; each steaming takes one of `steamsOn`
 * places on a staffed day of [s − steamWindow, s − 1].
 *
 * Where `perDay` is given, every "day" is such a part of a day instead: costs alone still count whole days.
 */
export type DayProblem = {
  /** So many parts a day has; 1 when left out. */
  readonly perDay?: number;
  readonly kilns: readonly string[];
  /** Kilns of a class take the same runs for the same days; moving between them costs nothing more. */
  readonly classOf: readonly number[];
  readonly powerKw: readonly number[];
  /** Days on the calendar; every run is unloaded before this day. */
  readonly horizon: number;
  /** People on duty, by day; 0 where nobody loads or unloads. */
  readonly handsOn: readonly number[];
  readonly opsOn: readonly number[];
  readonly steamsOn: readonly number[];
  readonly steamWindow: number;
  readonly taken: readonly TakenDays[];
  /** Kilowatts left for kilns that heat together, by day; null without a limit. */
  readonly powerLeftKw: readonly number[] | null;
  readonly jobs: readonly DayJob[];
};

/** Load and unload day on a kiln, and the day of the steamer; −1 when nothing is steamed. */
export type DayPlacement = { readonly job: number; readonly kiln: number; readonly start: number; readonly end: number; readonly steam: number };

/** What one placement costs: days late × weight, the move of a run that stands, a change of the days to be left quiet. */
export function placementCost({ classOf, perDay = 1 }: Pick<DayProblem, "classOf" | "perDay">, { due, weight, standing, quiet, stays }: DayJob, kiln: number, start: number, end: number): number {
  const cls = classOf[kiln]!;
  const days = (from: number, to: number): number => Math.floor(to / perDay) - Math.floor(from / perDay);
  const late = weight * Math.max(0, days(due, stays?.[cls]?.unloaded[start] ?? end));
  const moved = Math.abs(days(standing?.start ?? start, start));
  const isElsewhere = standing !== null && cls !== classOf[standing.kiln];
  const first = Math.min(start, standing?.start ?? start);
  const isChanged = standing === null || moved > 0 || isElsewhere;
  const unquiet = quiet !== undefined && isChanged && first < quiet.before ? quiet.price : 0;
  if (standing === null) return late + unquiet;
  const onOtherDay = moved > 0 ? standing.fix + standing.slope * moved : 0;
  const atAll = moved > 0 || isElsewhere ? (standing.moved ?? 0) : 0;
  return late + unquiet + atAll + onOtherDay + (isElsewhere ? standing.otherClass : 0);
}

/** For how long a run loaded at `start` counts with its kiln's power, from `start` on. */
export function heatsFor({ classOf }: Pick<DayProblem, "classOf">, { stays, heatingDays }: DayJob, kiln: number, start: number): number {
  return stays?.[classOf[kiln]!]?.heats[start] ?? heatingDays;
}

/** When a kiln may be loaded again after a load at `start`, and not before; undefined where it cannot be loaded then. */
export function freeAgain({ classOf, handsOn, horizon }: DayProblem, { daysByClass, stays, hands }: DayJob, kiln: number, start: number): number | undefined {
  const cls = classOf[kiln]!;
  const known = stays?.[cls]?.free[start];
  if (stays !== undefined) return known === undefined || known < 0 ? undefined : known;
  let unload = start + daysByClass[cls]!;
  while (unload < horizon && handsOn[unload]! < Math.max(1, hands)) unload++;
  return unload;
}

export function dayCost(problem: DayProblem, placements: readonly DayPlacement[]): number {
  return placements.reduce((sum, { job, kiln, start, end }) => sum + placementCost(problem, problem.jobs[job]!, kiln, start, end), 0);
}
