import { Temporal } from "temporal-polyfill";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { MINUTES_PER_WEEK, type Band, type WeekSpan } from "./tariff";

/** A stretch at one price, in elapsed hours from the start of what is priced. */
export type PricedStretch = { readonly fromH: number; readonly toH: number; readonly band: Band };

/** 1 January 1970 was a Thursday: minutes of the week that had passed when it began. */
const EPOCH_WEEK_MIN = 3 * 24 * 60;

/** Bands hour after hour from a minute of the week, on a clock that never changes. `week` prices every minute. */
export function pricedFromMinute(week: readonly WeekSpan[], startMin: number, hours: number): readonly PricedStretch[] {
  const endMin = startMin + hours * 60;
  const stretches: PricedStretch[] = [];
  for (let monday = Math.floor(startMin / MINUTES_PER_WEEK) * MINUTES_PER_WEEK; monday < endMin; monday += MINUTES_PER_WEEK) {
    for (const { fromMin, toMin, band } of week) {
      const from = Math.max(startMin, monday + fromMin);
      const to = Math.min(endMin, monday + toMin);
      if (from < to) stretches.push({ fromH: (from - startMin) / 60, toH: (to - startMin) / 60, band });
    }
  }
  return stretches;
}

/**
 * Bands from an instant for a number of elapsed hours, by what the workshop's clock shows at each moment: an hour
 * that the clocks skip is never priced, and one that they show twice is priced twice, both times as that hour.
 */
export function pricedFromInstant(week: readonly WeekSpan[], start: Temporal.Instant, hours: number, timeZone: string): readonly PricedStretch[] {
  const startMs = start.epochMilliseconds;
  const endMs = startMs + hours * 60 * MS_PER_MINUTE;
  const stretches: PricedStretch[] = [];
  let atMs = startMs;
  while (atMs < endMs) {
    const zoned = Temporal.Instant.fromEpochMilliseconds(Math.floor(atMs)).toZonedDateTimeISO(timeZone);
    const changeMs = zoned.getTimeZoneTransition("next")?.epochMilliseconds ?? Infinity;
    const untilMs = Math.min(endMs, changeMs);
    const localMin = (atMs + zoned.offsetNanoseconds / 1e6) / MS_PER_MINUTE;
    const sinceH = (atMs - startMs) / MS_PER_MINUTE / 60;
    for (const { fromH, toH, band } of pricedFromMinute(week, localMin + EPOCH_WEEK_MIN, (untilMs - atMs) / MS_PER_MINUTE / 60)) {
      stretches.push({ fromH: sinceH + fromH, toH: sinceH + toH, band });
    }
    atMs = untilMs;
  }
  return stretches;
}

