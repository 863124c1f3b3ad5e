import type { Temporal } from "temporal-polyfill";
import type { Interval } from "@/lib/domain/time/interval";

export type Tomorrow = { readonly day: Temporal.PlainDate; readonly span: Interval };

/**
 * The day to tell of at this instant, with its 23, 24 or 25 hours; undefined before the hour has come. It is told of
 * until midnight, so that a late start catches up.
 * @param fromHour full hour of the workshop's clock, 0 to 23; where the clocks leave it out, the next one
 */
export function tomorrowToTell(now: Temporal.Instant, timeZone: string, fromHour: number): Tomorrow | undefined {
  const here = now.toZonedDateTimeISO(timeZone);
  if (!(here.hour >= fromHour)) return undefined;
  const day = here.toPlainDate().add({ days: 1 });
  const start = day.toZonedDateTime(timeZone).toInstant();
  return { day, span: { start, end: day.add({ days: 1 }).toZonedDateTime(timeZone).toInstant() } };
}

/** A full hour as clocks show it, "07:00". */
export function showHour(hour: number): string {
  return `${String(hour).padStart(2, "0")}:00`;
}
