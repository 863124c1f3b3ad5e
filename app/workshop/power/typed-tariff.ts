import { minorDigits } from "@/lib/domain/tariff/currency";
import { decimalText } from "@/lib/domain/tariff/money";
import type { Tariff } from "@/lib/domain/tariff/tariff";
import { clockOfMinutes } from "@/lib/domain/tariff/week-words";
import type { TypedBand, TypedTariff } from "./actions";

const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7];

export const NEW_BAND: TypedBand = { name: "", weekdays: EVERY_DAY, from: "00:00", to: "00:00", price: "" };

/** A tariff as its form shows it; one band for the whole week to begin with. */
export function typedOf(tariff: Tariff | null): TypedTariff {
  if (tariff === null) return { currency: "", standingPerDay: "", bands: [{ ...NEW_BAND, name: "Any hour" }] };
  const money = (amount: number): string => decimalText(amount, tariff.scale + minorDigits(tariff.currency));
  return {
    currency: tariff.currency,
    standingPerDay: tariff.standingPerDay === null ? "" : money(tariff.standingPerDay),
    bands: tariff.bands.map(({ name, weekdays, fromMin, toMin, price }) => ({
      name, weekdays, from: clockOfMinutes(fromMin), to: clockOfMinutes(toMin % 1440), price: money(price),
    })),
  };
}
