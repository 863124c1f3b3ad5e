import type { Temporal } from "temporal-polyfill";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** A kiln-week is 7 × 24 elapsed hours of one kiln, from door closed to free again. */
export const HOURS_PER_KILN_WEEK = 7 * 24;

/** Elapsed kiln-weeks, as a decimal. The kiln cools by elapsed time, so a change of the clocks changes nothing. */
export function kilnWeeksBetween(from: Temporal.Instant, to: Temporal.Instant): number {
  return (to.epochMilliseconds - from.epochMilliseconds) / (HOURS_PER_KILN_WEEK * MS_PER_HOUR);
}

export function kilnWeeksOfHours(hours: number): number {
  return hours / HOURS_PER_KILN_WEEK;
}

/** One stretch counted both ways. Across a change of the clocks 21 local days are 503 or 505 elapsed hours. */
export type TimeHeld = {
  readonly elapsedHours: number;
  /** Whole local days, midnight by midnight as a wall calendar counts them. */
  readonly localDays: number;
  /** What is left after the whole local days, in elapsed hours. */
  readonly restHours: number;
  /** Elapsed hours minus what the wall clock shows: -1 over a spring change, 1 over an autumn one, otherwise 0. */
  readonly clockChangeHours: number;
};

export function timeHeld(from: Temporal.Instant, to: Temporal.Instant, timeZone: string): TimeHeld {
  const start = from.toZonedDateTimeISO(timeZone);
  const end = to.toZonedDateTimeISO(timeZone);
  const whole = start.until(end, { largestUnit: "days" });
  const afterDays = start.add({ days: whole.days });
  return {
    elapsedHours: (to.epochMilliseconds - from.epochMilliseconds) / MS_PER_HOUR,
    localDays: whole.days,
    restHours: (end.epochMilliseconds - afterDays.epochMilliseconds) / MS_PER_HOUR,
    clockChangeHours: (start.offsetNanoseconds - end.offsetNanoseconds) / 3.6e12,
  };
}

/** The same wall-clock time `weeks` later: "three weeks from Monday 09:30" is a Monday at 09:30, whatever the clocks did. */
export function sameWallTimeWeeksLater(from: Temporal.Instant, weeks: number, timeZone: string): Temporal.Instant {
  return from.toZonedDateTimeISO(timeZone).add({ weeks }).toInstant();
}

/** `kilnWeeks` × 168 elapsed hours later: what a kiln needs, which may end an hour off on the wall. */
export function kilnWeeksLater(from: Temporal.Instant, kilnWeeks: number): Temporal.Instant {
  return from.add({ milliseconds: Math.round(kilnWeeks * HOURS_PER_KILN_WEEK * MS_PER_HOUR) });
}
