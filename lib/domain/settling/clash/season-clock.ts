import { liftsTogether } from "@/lib/domain/booking/run-needs";
import type { LiftNeed, SearchSpace } from "@/lib/domain/booking/search-space";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { hoursTable } from "@/lib/domain/time/hours-table";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { startOfDay } from "@/lib/domain/time/zone-days";

/** One load or unload, without the question which trolley. */
export type Lifting = { readonly minutes: number; readonly hands: number };

/** Elapsed hours from door closed: until it may be unloaded, and in which the kiln counts with its power. */
export type KilnHours = { readonly cools: number; readonly heats: number };

/** What a run takes by the clock. */
export type RunClock = {
  readonly load: Lifting;
  readonly unload: Lifting;
  /** By kiln; kilns not named do not take it. */
  readonly inKiln: Readonly<Record<string, KilnHours>>;
  /** Where it stands: when its loading begins, when it is unloaded, when its kiln is free again. Null for an ask. */
  readonly standing: { readonly loading: number; readonly unloading: number; readonly free: number } | null;
};

/** A season by the clock, beside its ground in days: what "find time" knows of it. Instants are epoch milliseconds. */
export type SeasonClock = {
  readonly hours: WorkshopHours;
  /** The ground's day 0, counted from 1 January 1970. */
  readonly firstDay: number;
  readonly turnaroundHours: ReadonlyMap<string, number>;
  readonly runs: ReadonlyMap<string, RunClock>;
  readonly taken: readonly { readonly kilnId: string; readonly from: number; readonly to: number }[];
  /** What the electrician allows, and what heats and does not move; null without a limit. */
  readonly power: { readonly limitKw: number; readonly heating: readonly { readonly from: number; readonly to: number; readonly kw: number }[] } | null;
};

/** The hours of the season as a search for lifts sees them when nobody else is there: no lift is possible sooner than that. */
export function emptySpace({ hours, firstDay }: SeasonClock, days: number): SearchSpace {
  const table = hoursTable(hours);
  return {
    timeZone: hours.timeZone,
    windowsOn: table,
    handsTaken: () => [],
    heating: [],
    busyOf: () => [],
    notBefore: startOfDay(firstDay, hours.timeZone),
    horizon: startOfDay(firstDay + days, hours.timeZone) - 1,
  };
}

export function liftNeed({ minutes, hands }: Lifting): LiftNeed {
  return { minutes, hands, trolleys: [] };
}

/** Loading and unloading of a plan: all its castings one after another. */
export function liftingOf(plan: CastingPlan): { readonly load: Lifting; readonly unload: Lifting } {
  return { load: liftsTogether(plan, "load"), unload: liftsTogether(plan, "unload") };
}
