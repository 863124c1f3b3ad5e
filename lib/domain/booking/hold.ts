import { Temporal } from "temporal-polyfill";
import { overlaps, type Interval } from "@/lib/domain/time/interval";

/** How long time is held: elapsed hours, so that a night in which the clocks change makes it neither longer nor shorter. */
export const HOLD_HOURS = 24;
/** How long before its end the holder is reminded. The database adds the job by the same figure (0009_holds). */
export const WARN_HOURS = 6;
/** For as long after a hold was to end, its casting cannot hold any of the same time again. Common practice, no source. */
export const AGAIN_AFTER_HOURS = 24;

/** A shorter hold is none: there is hardly time to look at it. Common practice, no source. */
export const LEAST_MINUTES = 60;

/** Until when a run is held from now on: 24 hours, or until its first booking or lift begins, whichever is sooner. */
export function heldUntil(now: Temporal.Instant, firstStart: Temporal.Instant): Temporal.Instant {
  const full = now.add({ hours: HOLD_HOURS });
  return Temporal.Instant.compare(full, firstStart) <= 0 ? full : firstStart;
}

/** Whether a hold until then is long enough to be made. */
export function isWorthHolding(until: Temporal.Instant, now: Temporal.Instant): boolean {
  return Temporal.Instant.compare(now.add({ minutes: LEAST_MINUTES }), until) <= 0;
}

/** A hold is half-open like every interval: at the instant it ends it is over. */
export function isOver(until: Temporal.Instant, now: Temporal.Instant): boolean {
  return Temporal.Instant.compare(until, now) <= 0;
}

/** Whether it is time to remind: within six hours of the end, and not after it. */
export function isToWarn(until: Temporal.Instant, now: Temporal.Instant): boolean {
  return !isOver(until, now) && Temporal.Instant.compare(until.subtract({ hours: WARN_HOURS }), now) <= 0;
}

/** A hold this casting had before, however it ended. */
export type EarlierHold = { readonly kilnId: string; readonly kiln: Interval; readonly until: Temporal.Instant };

/**
 * From when a casting may hold this time, if not from now on: a hold is not renewed by making the next one. Time on
 * another kiln, or that shares no instant with the earlier one, is free to hold.
 */
export function againFrom(earlier: readonly EarlierHold[], wanted: { readonly kilnId: string; readonly kiln: Interval }, now: Temporal.Instant): Temporal.Instant | undefined {
  return earlier
    .filter(({ kilnId, kiln }) => kilnId === wanted.kilnId && overlaps(kiln, wanted.kiln))
    .map(({ until }) => until.add({ hours: AGAIN_AFTER_HOURS }))
    .filter((from) => Temporal.Instant.compare(from, now) > 0)
    .toSorted(Temporal.Instant.compare)
    .at(-1);
}
