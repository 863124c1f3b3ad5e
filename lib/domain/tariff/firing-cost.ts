import type { Temporal } from "temporal-polyfill";
import { kWhUntil, type PowerCurve } from "@/lib/domain/firing/power";
import { minorDigits } from "./currency";
import { pricedFromInstant, pricedFromMinute, type PricedStretch } from "./priced-time";
import { weekOf, type Band, type Tariff } from "./tariff";

/** What one band takes of a firing. Money in whole minor units of the tariff's currency. */
export type BandCost = { readonly name: string; readonly price: number; readonly hours: number; readonly kWh: number; readonly cost: number };

export type FiringCost = {
  readonly currency: string;
  /** Decimals of the prices, in the currency's main unit. */
  readonly priceDecimals: number;
  readonly bands: readonly BandCost[];
  readonly kWh: number;
  /** The sum of the bands as they are shown. */
  readonly cost: number;
  /** The standing charge of the firing's days: paid with or without it, so it is not in the sum. */
  readonly standing: number | null;
};

/** The cost of a firing whose door closes at an instant, by the bands of the workshop's clock at every hour. */
export function costFrom(curve: PowerCurve, tariff: Tariff, start: Temporal.Instant, timeZone: string): FiringCost {
  return costOf(curve, tariff, pricedFromInstant(weekOf(tariff.bands), start, hoursOf(curve), timeZone));
}

/** The same for a firing that is not booked, from a minute of an ordinary week, without a change of the clocks. */
export function costInWeek(curve: PowerCurve, tariff: Tariff, startMin: number): FiringCost {
  return costOf(curve, tariff, pricedFromMinute(weekOf(tariff.bands), startMin, hoursOf(curve)));
}

export type CostRange = { readonly cheapest: StartCost; readonly dearest: StartCost };
export type StartCost = { readonly startMin: number; readonly cost: FiringCost };

/**
 * The cheapest and the dearest of some starts, in minutes of the week; the earliest of equals. Null
 * when there is no start to choose from.
 */
export function costRange(curve: PowerCurve, tariff: Tariff, startsMin: readonly number[]): CostRange | null {
  let range: CostRange | null = null;
  for (const startMin of startsMin) {
    const start = { startMin, cost: costInWeek(curve, tariff, startMin) };
    range = {
      cheapest: range === null || start.cost.cost < range.cheapest.cost.cost ? start : range.cheapest,
      dearest: range === null || start.cost.cost > range.dearest.cost.cost ? start : range.dearest,
    };
  }
  return range;
}

function hoursOf({ spans }: PowerCurve): number {
  return spans.at(-1)?.toH ?? 0;
}

function costOf(curve: PowerCurve, { currency, scale, bands, standingPerDay }: Tariff, stretches: readonly PricedStretch[]): FiringCost {
  const used = new Map<string, { readonly band: Band; hours: number; kWh: number }>();
  for (const { fromH, toH, band } of stretches) {
    const sum = used.get(band.name) ?? { band, hours: 0, kWh: 0 };
    sum.hours += toH - fromH;
    sum.kWh += kWhUntil(curve, toH) - kWhUntil(curve, fromH);
    used.set(band.name, sum);
  }
  const names = [...new Set(bands.map(({ name }) => name))];
  const costs = names.flatMap((name): BandCost[] => {
    const sum = used.get(name);
    return sum === undefined ? [] : [{ name, price: sum.band.price, hours: sum.hours, kWh: sum.kWh, cost: Math.round((sum.kWh * sum.band.price) / 10 ** scale) }];
  });
  const days = hoursOf(curve) / 24;
  return {
    currency,
    priceDecimals: scale + minorDigits(currency),
    bands: costs,
    kWh: curve.kWh,
    cost: costs.reduce((sum, { cost }) => sum + cost, 0),
    standing: standingPerDay === null ? null : Math.round((days * standingPerDay) / 10 ** scale),
  };
}
