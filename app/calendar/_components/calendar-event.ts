import { Temporal } from "temporal-polyfill";
import type { CalendarEvent, CalendarType } from "@schedule-x/calendar";
import type { CalendarEntry, CalendarPurpose } from "@/lib/contracts/calendar";
import styles from "./calendar.module.css";

/** One entry as the calendar wants it, on the workshop's clock. */
export function calendarEvent(entry: CalendarEntry, timeZone: string): CalendarEvent {
  const { id, title, purpose, place } = entry;
  const time = timeOf(entry, timeZone);
  const long = time.start.toString().slice(0, 10) !== time.end.toString().slice(0, 10);
  const classes = [styles[purpose], long && styles["long"], entry.mine && styles["mine"], entry.href === null && styles["still"]];
  return {
    id,
    title,
    calendarId: purpose,
    ...time,
    ...(place === null ? {} : { location: place }),
    _options: { additionalClasses: classes.filter((name): name is string => typeof name === "string") },
  };
}

function timeOf(entry: CalendarEntry, timeZone: string): Pick<CalendarEvent, "start" | "end"> {
  if ("fromDay" in entry) return { start: Temporal.PlainDate.from(entry.fromDay), end: Temporal.PlainDate.from(entry.toDay) };
  const start = zoned(entry.startMs, timeZone);
  const end = zoned(entry.endMs, timeZone);
  // The calendar counts the day of the end as taken; what ends at midnight does not touch the next day.
  return { start, end: end.equals(end.startOfDay()) ? end.subtract({ minutes: 1 }) : end };
}

function zoned(ms: number, timeZone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone);
}

/** Colours follow the tokens, and so the reader's light or dark; the words in the titles carry the meaning. */
export const CALENDARS: Record<CalendarPurpose, CalendarType> = {
  "steam-out": colours("steam", "var(--ramp-200)", "color-mix(in oklab, var(--ramp-200) 20%, var(--paper-raised))"),
  load: colours("load", "var(--ink-soft)", "var(--paper-sunk)"),
  kiln: colours("kiln", "var(--ramp-600)", "color-mix(in oklab, var(--ramp-700) 34%, var(--paper-raised))"),
  unload: colours("unload", "var(--ink-soft)", "var(--paper-sunk)"),
  outage: colours("outage", "var(--ink-faint)", "var(--paper-raised)"),
  closure: colours("closure", "var(--rule-strong)", "var(--paper)"),
};

function colours(colorName: string, main: string, container: string): CalendarType {
  const both = { main, container, onContainer: "var(--ink)" };
  return { colorName, lightColors: both, darkColors: both };
}
