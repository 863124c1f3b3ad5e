import type { Temporal } from "temporal-polyfill";
import { HOURS_PER_KILN_WEEK } from "@/lib/domain/time/kiln-weeks";

const LOCALE = "en-GB";

/** "Mon 7 Dec, 09:30" on the workshop's own clock. */
export function showTime(instant: Temporal.Instant, timeZone: string): string {
  return `${showDay(instant, timeZone)}, ${showClock(instant, timeZone)}`;
}

/** "Mon 7 Dec 2026, 09:30", where the year could be in doubt. */
export function showTimeWithYear(instant: Temporal.Instant, timeZone: string): string {
  const year = instant.toZonedDateTimeISO(timeZone).year;
  return `${showDay(instant, timeZone)} ${year}, ${showClock(instant, timeZone)}`;
}

/** "Mon 7 Dec". Built from its parts, because the order and commas of locale data change between versions. */
export function showDay(instant: Temporal.Instant, timeZone: string): string {
  return showDate(instant.toZonedDateTimeISO(timeZone).toPlainDate());
}

export function showDate(date: Temporal.PlainDate): string {
  const weekday = date.toLocaleString(LOCALE, { weekday: "short" });
  const month = MONTHS[date.month - 1] ?? "";
  return `${weekday} ${date.day} ${month}`;
}

/** "Mon 7 Dec 2026". */
export function showDayWithYear(date: Temporal.PlainDate): string {
  return `${showDate(date)} ${date.year}`;
}

/** Three letters each; locale data writes "Sept" in some versions. */
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** "09:30", 24-hour. */
export function showClock(instant: Temporal.Instant, timeZone: string): string {
  const zoned = instant.toZonedDateTimeISO(timeZone);
  return `${two(zoned.hour)}:${two(zoned.minute)}`;
}

/** "Mon 7 Dec, 09:30 to 10:15", or with both days when they differ. */
export function showInterval(interval: { readonly start: Temporal.Instant; readonly end: Temporal.Instant }, timeZone: string): string {
  const sameDay = showDay(interval.start, timeZone) === showDay(interval.end, timeZone);
  const end = sameDay ? showClock(interval.end, timeZone) : showTime(interval.end, timeZone);
  return `${showTime(interval.start, timeZone)} to ${end}`;
}

/**
 * Elapsed hours in the two largest units that say enough: "2 weeks 3 days", "3 days 4 hours",
 * "2 hours 30 minutes". Rounded to the hour from a day up, to the minute below.
 */
export function showHours(hours: number): string {
  const minutes = Math.round(hours * 60);
  if (minutes < 24 * 60) return joined([count(Math.floor(minutes / 60), "hour"), count(minutes % 60, "minute")], "0 minutes");
  const whole = Math.round(hours);
  const weeks = Math.floor(whole / HOURS_PER_KILN_WEEK);
  const days = Math.floor((whole % HOURS_PER_KILN_WEEK) / 24);
  const rest = whole % 24;
  return joined(weeks > 0 ? [count(weeks, "week"), count(days, "day")] : [count(days, "day"), count(rest, "hour")], "0 hours");
}

/** "2.4 kiln-weeks"; one decimal, and "1 kiln-week" without it. */
export function showKilnWeeks(hours: number): string {
  const weeks = Math.round((hours / HOURS_PER_KILN_WEEK) * 10) / 10;
  return `${weeks} ${weeks === 1 ? "kiln-week" : "kiln-weeks"}`;
}

function count(number: number, unit: string): string {
  if (number === 0) return "";
  return `${number} ${unit}${number === 1 ? "" : "s"}`;
}

function joined(parts: readonly string[], none: string): string {
  const said = parts.filter((part) => part !== "");
  return said.length === 0 ? none : said.join(" ");
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
