import type { Temporal } from "temporal-polyfill";
import { showTime } from "@/lib/domain/time/show-time";

/**
 * Until when on the workshop's clock, and how long that is from now: "today, 17:30 (5 h 20 min from now)". The hours are
 * elapsed ones. A time that the clocks show twice that night says which showing is meant.
 */
export function showUntil(until: Temporal.Instant, now: Temporal.Instant, timeZone: string): string {
  return `${dayAndClock(until, now, timeZone)}${showing(until, timeZone)} (${left(until, now)})`;
}

function dayAndClock(until: Temporal.Instant, now: Temporal.Instant, timeZone: string): string {
  const at = until.toZonedDateTimeISO(timeZone);
  const days = now.toZonedDateTimeISO(timeZone).toPlainDate().until(at.toPlainDate()).days;
  const clock = at.toPlainTime().toString({ smallestUnit: "minute" });
  if (days === 0) return `today, ${clock}`;
  return days === 1 ? `tomorrow, ${clock}` : showTime(until, timeZone);
}

function showing(until: Temporal.Instant, timeZone: string): string {
  const plain = until.toZonedDateTimeISO(timeZone).toPlainDateTime();
  const [first, second] = (["earlier", "later"] as const).map((disambiguation) => plain.toZonedDateTime(timeZone, { disambiguation }).epochMilliseconds);
  if (first === second) return "";
  return until.epochMilliseconds - (until.epochMilliseconds % 60_000) < (second ?? 0) - ((second ?? 0) % 60_000) ? " for the first time" : " for the second time";
}

function left(until: Temporal.Instant, now: Temporal.Instant): string {
  const minutes = Math.floor((until.epochMilliseconds - now.epochMilliseconds) / 60_000);
  if (minutes < 0) return "past";
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours === 0) return `${rest} min from now`;
  return rest === 0 ? `${hours} h from now` : `${hours} h ${rest} min from now`;
}
