import { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";

/**
 * A stretch of time, half-open: `start` belongs to it, `end` does not. Two bookings that touch
 * (one ends at 10:00, the next starts at 10:00) therefore do not overlap, exactly as Postgres sees
 * `tstzrange(…, '[)')`.
 */
export type Interval = { readonly start: Temporal.Instant; readonly end: Temporal.Instant };

export const MS_PER_MINUTE = 60_000;
export const MS_PER_HOUR = 3_600_000;
export const MS_PER_DAY = 24 * MS_PER_HOUR;

/** Refuses an end before its start; an empty interval (end equal to start) is allowed and overlaps nothing. */
export function intervalOf(start: Temporal.Instant, end: Temporal.Instant): Outcome<Interval> {
  if (Temporal.Instant.compare(end, start) < 0) {
    return refuse({
      code: "end-before-start",
      field: "end",
      value: end.toString(),
      allowed: `${start.toString()} or later`,
      message: `The end ${end.toString()} lies before the start ${start.toString()}; it must be the same instant or later.`,
    });
  }
  return ok({ start, end });
}

/** True when the two share at least one instant. Touching intervals share none. */
export function overlaps(a: Interval, b: Interval): boolean {
  const start = Math.max(a.start.epochMilliseconds, b.start.epochMilliseconds);
  const end = Math.min(a.end.epochMilliseconds, b.end.epochMilliseconds);
  return start < end;
}

/** True when every instant of `inner` belongs to `outer`. */
export function contains(outer: Interval, inner: Interval): boolean {
  return (
    Temporal.Instant.compare(outer.start, inner.start) <= 0 && Temporal.Instant.compare(inner.end, outer.end) <= 0
  );
}

/** True when the instant belongs to the interval: at the start yes, at the end no. */
export function containsInstant(outer: Interval, instant: Temporal.Instant): boolean {
  return Temporal.Instant.compare(outer.start, instant) <= 0 && Temporal.Instant.compare(instant, outer.end) < 0;
}

/** True when one ends exactly where the other starts. */
export function touching(a: Interval, b: Interval): boolean {
  return a.end.equals(b.start) || b.end.equals(a.start);
}

/** Elapsed hours, which a change of the clocks does not alter. */
export function hoursOf(interval: Interval): number {
  return (interval.end.epochMilliseconds - interval.start.epochMilliseconds) / MS_PER_HOUR;
}
