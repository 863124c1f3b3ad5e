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

/** Loads that are not wanted: on days from `from` up to before `to`, on kilns of one class or on any. */
export type UnwantedLoad = { readonly cls: number | null; readonly from: number; readonly to: number };

/** One run to be placed, standing or asked for. Days count from 0. */
export type DayJob = {
  readonly name: string;
  /** Days in the kiln, by class of kiln; 0 where it does not fit. */
  readonly daysByClass: readonly number[];
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
 */
export type DayProblem = {
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
export function placementCost({ classOf }: Pick<DayProblem, "classOf">, { due, weight, standing, quiet }: DayJob, kiln: number, start: number, end: number): number {
  const late = weight * Math.max(0, end - due);
  const isLater = start !== standing?.start;
  const isElsewhere = standing !== null && classOf[kiln] !== classOf[standing.kiln];
  const first = Math.min(start, standing?.start ?? start);
  const unquiet = quiet !== undefined && (isLater || isElsewhere) && first < quiet.before ? quiet.price : 0;
  if (standing === null) return late + unquiet;
  const onOtherDay = isLater ? standing.fix + standing.slope * Math.abs(start - standing.start) : 0;
  const atAll = isLater || isElsewhere ? (standing.moved ?? 0) : 0;
  return late + unquiet + atAll + onOtherDay + (isElsewhere ? standing.otherClass : 0);
}

export function dayCost(problem: DayProblem, placements: readonly DayPlacement[]): number {
  return placements.reduce((sum, { job, kiln, start, end }) => sum + placementCost(problem, problem.jobs[job]!, kiln, start, end), 0);
}
