import type { Temporal } from "temporal-polyfill";
import { hoursTable } from "@/lib/domain/time/hours-table";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { dayNumber, localDay } from "@/lib/domain/time/zone-days";

/** How far a settlement looks: half a year, in which the longest firings find a place. Days. */
export const SEASON_DAYS = 182;

/** The workshop's coming season in days from today on, which is 0. */
export type Season = {
  readonly today: Temporal.PlainDate;
  readonly timeZone: string;
  /** First day on which anything may be loaded, and how many days there are. */
  readonly opens: number;
  readonly length: number;
  readonly dayOf: (instant: Temporal.Instant) => number;
  /** Most people on duty at once on a day. */
  readonly handsOn: readonly number[];
  /** Hours with somebody on duty. */
  readonly staffedHoursOn: readonly number[];
};

/** From one day up to and with another, by the workshop's own calendar. */
export type SeasonSpan = { readonly from: Temporal.PlainDate; readonly to: Temporal.PlainDate };

/** The coming half year, or another stretch of days; what lies before today is left out of it. */
export function season(hours: WorkshopHours, today: Temporal.PlainDate, span?: SeasonSpan): Season {
  const until = (day: Temporal.PlainDate): number => today.until(day, { largestUnit: "days" }).days;
  const length = span === undefined ? SEASON_DAYS : Math.max(1, until(span.to) + 1);
  const first = dayNumber(today);
  const table = hoursTable(hours);
  const windows = Array.from({ length }, (_, day) => table(first + day));
  return {
    today,
    timeZone: hours.timeZone,
    opens: span === undefined ? 0 : Math.max(0, until(span.from)),
    length,
    dayOf: (instant) => localDay(instant.epochMilliseconds, hours.timeZone) - first,
    handsOn: windows.map((own) => Math.max(0, ...own.map(({ hands }) => hands))),
    staffedHoursOn: windows.map((own) => own.reduce((sum, { start, end }) => sum + (end - start) / MS_PER_HOUR, 0)),
  };
}

/**
 * Days from the one on which the door closes to the first on which a standing run may be unloaded, so that on its own
 * day it is unloaded when it is booked to be: from when it is cool, or from the staffed day before it is unloaded on.
 */
export function daysUntilUnloaded({ handsOn }: Pick<Season, "handsOn">, { closed, cool, unloaded }: { readonly closed: number; readonly cool: number; readonly unloaded: number }): number {
  let before = unloaded - 1;
  while (before >= cool && !((handsOn[before] ?? 0) > 0)) before--;
  return Math.max(1, Math.max(cool, before + 1) - closed);
}
