import { refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import { checkTariff } from "./check-tariff";
import { minorDigits } from "./currency";
import { decimalOf } from "./money";
import { MOST_SCALE, type Band, type Tariff } from "./tariff";

/** A tariff as it is typed: prices in the currency's main unit, as text. */
export type TypedTariff = {
  readonly currency: string;
  readonly bands: readonly (Omit<Band, "price"> & { readonly price: string })[];
  /** A day; empty for none. */
  readonly standingPerDay: string;
};

/**
 * A typed tariff in whole numbers, at the smallest scale that holds every price without rounding, or
 * everything that is wrong with it.
 */
export function readTariff({ currency, bands, standingPerDay }: TypedTariff): Outcome<Tariff> {
  const typed = [...bands.map(({ price }, at) => ({ field: `bands.${at}.price`, text: price })), ...(standingPerDay.trim() === "" ? [] : [{ field: "standingPerDay", text: standingPerDay }])];
  const most = minorDigits(currency) + MOST_SCALE;
  const refused = refusalOf(typed.flatMap(({ field, text }) => moneyProblem(field, text, most)));
  if (refused !== undefined) return refused;
  const decimals = typed.map(({ text }) => decimalOf(text)?.decimals ?? 0);
  const kept = Math.max(minorDigits(currency), ...decimals);
  const stored = (text: string): number => {
    const { digits, decimals: has } = decimalOf(text) ?? { digits: NaN, decimals: 0 };
    return digits * 10 ** (kept - has);
  };
  return checkTariff({
    currency,
    scale: kept - minorDigits(currency),
    bands: bands.map((band) => ({ ...band, price: stored(band.price) })),
    standingPerDay: standingPerDay.trim() === "" ? null : stored(standingPerDay),
  });
}

function moneyProblem(field: string, text: string, mostDecimals: number): Problem[] {
  const amount = decimalOf(text);
  const allowed = `an amount such as 2.45, with up to ${mostDecimals} decimals`;
  if (amount !== undefined && amount.decimals <= mostDecimals) return [];
  const why = /^\s*[-−]/.test(text) ? "it is below nothing" : amount === undefined ? "it is not an amount" : `it has ${amount.decimals} decimals`;
  return [{ code: "out-of-range", field, value: text, allowed, message: `The price is “${text}”: ${why}. It must be ${allowed}, 0 or more.` }];
}
