import type { WeeklyHours } from "@/lib/domain/time/staffed-hours";
import { MINUTES_PER_DAY, MINUTES_PER_WEEK, type Tariff } from "./tariff";

/** What the cost of a firing that is not booked is worked out from. */
export type CostGround = {
  readonly tariff: Tariff | null;
  /** Minutes of the week at which a door may be closed. */
  readonly startsMin: readonly number[];
  readonly mayManagePower: boolean;
};

/**
 * Minutes of the week, on whole hours, at which a kiln's door may be closed: while somebody is there,
 * up to the end of their hours. Every hour of the week where no hours are kept.
 */
export function startsInHours(weekly: readonly WeeklyHours[]): readonly number[] {
  const all = Array.from({ length: MINUTES_PER_WEEK / 60 }, (_, hour) => hour * 60);
  if (weekly.length === 0) return all;
  return all.filter((minute) => weekly.some(({ weekday, opensMin, closesMin }) => {
    const inDay = minute - (weekday - 1) * MINUTES_PER_DAY;
    return opensMin <= inDay && inDay <= closesMin && inDay < MINUTES_PER_DAY;
  }));
}
