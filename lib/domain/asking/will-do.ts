import { Temporal } from "temporal-polyfill";
import type { RunProposal } from "@/lib/domain/booking/run-plan";

/** A wish for weeks of a kiln means these: a loading up to this much later still is what was wished for. Common practice, no source. */
export const STILL_THOSE_WEEKS_HOURS = 96;
/** An offer is held for a day, so nothing of it begins sooner. */
export const OFFERED_AHEAD_HOURS = 24;

export type AskedTime = {
  readonly neededBy: Temporal.PlainDate | null;
  /** Days after `neededBy` that would still do. */
  readonly lateDays: number;
  /** The start of the weeks that are wished for; null when none are. */
  readonly wishedFrom: Temporal.Instant | null;
};

/** Whether a run is what was asked for: ready by its date and the days after it that would still do, or in the weeks that are wished for. */
export function willDo({ daysLate, kilnFrom }: Pick<RunProposal, "daysLate" | "kilnFrom">, { neededBy, lateDays, wishedFrom }: AskedTime): boolean {
  if (neededBy !== null && daysLate <= lateDays) return true;
  return wishedFrom !== null && Temporal.Instant.compare(kilnFrom, wishedFrom.add({ hours: STILL_THOSE_WEEKS_HOURS })) <= 0;
}

/** From when on time can be offered: not before the ask's first day, and never sooner than a hold lasts. */
export function offeredFrom(now: Temporal.Instant, firstDay: Temporal.PlainDate | null, timeZone: string): Temporal.Instant {
  const soonest = now.add({ hours: OFFERED_AHEAD_HOURS });
  const asked = firstDay?.toZonedDateTime(timeZone).toInstant();
  return asked !== undefined && Temporal.Instant.compare(asked, soonest) > 0 ? asked : soonest;
}
