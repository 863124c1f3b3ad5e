import { Temporal } from "temporal-polyfill";
import { MS_PER_DAY } from "@/lib/domain/time/interval";

/** How far a zone's clock is ahead of UTC, from one change of the clocks to the next. Epoch milliseconds, half-open. */
type Stretch = { readonly from: number; readonly to: number; readonly offsetMs: number };

/** Zone rules do not change while a process runs, so what was looked up once is kept. */
const stretches = new Map<string, Stretch[]>();
const dayStarts = new Map<string, Map<number, number>>();

/** The offset from UTC at an instant, ms; the same as Temporal's, without its cost. */
export function offsetAt(epochMs: number, timeZone: string): number {
  const known = stretches.get(timeZone) ?? [];
  for (const { from, to, offsetMs } of known) if (from <= epochMs && epochMs < to) return offsetMs;
  const zoned = Temporal.Instant.fromEpochMilliseconds(Math.floor(epochMs)).toZonedDateTimeISO(timeZone);
  const before = zoned.add({ nanoseconds: 1 }).getTimeZoneTransition("previous")?.epochMilliseconds ?? -Infinity;
  const after = zoned.getTimeZoneTransition("next")?.epochMilliseconds ?? Infinity;
  const stretch = { from: before, to: after, offsetMs: zoned.offsetNanoseconds / 1e6 };
  stretches.set(timeZone, [stretch, ...known]);
  return stretch.offsetMs;
}

/** The local day an instant falls on, counted from 1 January 1970. */
export function localDay(epochMs: number, timeZone: string): number {
  return Math.floor((epochMs + offsetAt(epochMs, timeZone)) / MS_PER_DAY);
}

/** The first instant of a local day, epoch milliseconds. */
export function startOfDay(day: number, timeZone: string): number {
  const known = dayStarts.get(timeZone) ?? new Map<number, number>();
  dayStarts.set(timeZone, known);
  const start = known.get(day) ?? dateOf(day).toZonedDateTime(timeZone).epochMilliseconds;
  known.set(day, start);
  return start;
}

export function dateOf(day: number): Temporal.PlainDate {
  return EPOCH.add({ days: day });
}

/** The other way round. */
export function dayNumber(date: Temporal.PlainDate): number {
  return EPOCH.until(date, { largestUnit: "days" }).days;
}

const EPOCH = Temporal.PlainDate.from("1970-01-01");
