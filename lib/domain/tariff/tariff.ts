import type { Weekday } from "@/lib/domain/time/staffed-hours";

/**
 * What a kilowatt-hour costs, by weekday and hour of the workshop's own clock. Money is whole numbers:
 * a price is in 10^-scale of the currency's minor unit, so 2.4567 crowns are 24567 at scale 2 (øre and
 * two decimals below). Weekday 1 is Monday; minutes count from local midnight, the end does not belong.
 */
export type Band = {
  readonly name: string;
  readonly weekdays: readonly Weekday[];
  readonly fromMin: number;
  readonly toMin: number;
  /** Per kWh. */
  readonly price: number;
};

export type Tariff = {
  /** ISO 4217. */
  readonly currency: string;
  readonly scale: number;
  readonly bands: readonly Band[];
  /** A day, in the same unit as the prices; null when there is none. Paid whether or not a kiln runs. */
  readonly standingPerDay: number | null;
};

export const MINUTES_PER_DAY = 24 * 60;
export const MINUTES_PER_WEEK = 7 * MINUTES_PER_DAY;
export const MOST_SCALE = 4;
export const MOST_BANDS = 40;
/** In stored units: far above any tariff, far below where whole numbers end. */
export const MOST_PRICE = 1e12;

/** One stretch of the week, in minutes after Monday 00:00. */
export type WeekSpan = { readonly fromMin: number; readonly toMin: number; readonly band: Band };

/** The week as its bands fill it, in order. */
export function weekOf(bands: readonly Band[]): readonly WeekSpan[] {
  const spans = bands.flatMap((band) =>
    band.weekdays.map((weekday) => {
      const midnight = (weekday - 1) * MINUTES_PER_DAY;
      return { fromMin: midnight + band.fromMin, toMin: midnight + band.toMin, band };
    }),
  );
  return spans.sort((a, b) => a.fromMin - b.fromMin);
}
