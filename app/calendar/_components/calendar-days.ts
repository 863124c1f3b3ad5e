import type { Temporal } from "temporal-polyfill";
import type { CalendarView } from "@/lib/contracts/calendar";

const LOCALE = "en-GB";

/** One step on or back: a month, a week or a day. */
export function stepped(day: Temporal.PlainDate, view: CalendarView, step: 1 | -1): Temporal.PlainDate {
  if (view === "month") return day.add({ months: step });
  return day.add(view === "week" ? { weeks: step } : { days: step });
}

/** First and last day in sight; a month's picture also shows the days that complete its weeks. */
export function daysInSight(day: Temporal.PlainDate, view: CalendarView): { readonly first: Temporal.PlainDate; readonly last: Temporal.PlainDate } {
  if (view === "day") return { first: day, last: day };
  if (view === "week") return { first: mondayOf(day), last: mondayOf(day).add({ days: 6 }) };
  const first = day.with({ day: 1 });
  return { first: mondayOf(first), last: mondayOf(first.add({ months: 1 }).subtract({ days: 1 })).add({ days: 6 }) };
}

/** "December 2026", "7–13 December 2026", "30 November – 6 December 2026", "Monday 7 December 2026". */
export function heading(day: Temporal.PlainDate, view: CalendarView): string {
  if (view === "month") return `${month(day)} ${day.year}`;
  if (view === "day") return `${day.toLocaleString(LOCALE, { weekday: "long" })} ${day.day} ${month(day)} ${day.year}`;
  const { first, last } = daysInSight(day, view);
  if (first.month === last.month) return `${first.day}–${last.day} ${month(last)} ${last.year}`;
  const year = first.year === last.year ? "" : ` ${first.year}`;
  return `${first.day} ${month(first)}${year} – ${last.day} ${month(last)} ${last.year}`;
}

function mondayOf(day: Temporal.PlainDate): Temporal.PlainDate {
  return day.subtract({ days: day.dayOfWeek - 1 });
}

function month(day: Temporal.PlainDate): string {
  return day.toLocaleString(LOCALE, { month: "long" });
}
