import type { Band, Tariff } from "@/lib/domain/tariff/tariff";
import type { Weekday } from "@/lib/domain/time/staffed-hours";

const ALL: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];
const WORKING: readonly Weekday[] = [1, 2, 3, 4, 5];
const band = (name: string, weekdays: readonly Weekday[], from: number, to: number, price: number): Band => ({ name, weekdays, fromMin: from * 60, toMin: to * 60, price });

/** Invented: 1.84 at night, 2.4567 by day, 3.92 on working evenings, crowns at scale 2. */
export const SAMPLE_TARIFF: Tariff = {
  currency: "DKK",
  scale: 2,
  standingPerDay: 25000,
  bands: [
    band("Night", ALL, 0, 6, 18400),
    band("Day", ALL, 6, 17, 24567),
    band("Peak", WORKING, 17, 21, 39200),
    band("Day", [6, 7], 17, 24, 24567),
    band("Day", WORKING, 21, 24, 24567),
  ],
};

/** One price for every hour: cost is then energy times it, whatever the clock shows. */
export const FLAT: Tariff = { currency: "EUR", scale: 2, standingPerDay: null, bands: [band("Any", ALL, 0, 24, 3125)] };
