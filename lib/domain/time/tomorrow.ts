import type { Temporal } from "temporal-polyfill";
import type { Interval } from "@/lib/domain/time/interval";

/** From this hour on the workshop's clock, tomorrow is told of; until midnight, so that a late start catches up. */
export const TELL_TOMORROW_FROM_HOUR = 17;

export type Tomorrow = { readonly day: Temporal.PlainDate; readonly span: Interval };

/** The day to tell of at this instant, with its 23, 24 or 25 hours; undefined before the hour has come. */
export function tomorrowToTell(now: Temporal.Instant, timeZone: string): Tomorrow | undefined {
  const here = now.toZonedDateTimeISO(timeZone);
  if (here.hour < TELL_TOMORROW_FROM_HOUR) return undefined;
  const day = here.toPlainDate().add({ days: 1 });
  const start = day.toZonedDateTime(timeZone).toInstant();
  return { day, span: { start, end: day.add({ days: 1 }).toZonedDateTime(timeZone).toInstant() } };
}
