import { minorDigits } from "@/lib/domain/tariff/currency";
import { decimalText } from "@/lib/domain/tariff/money";
import type { Tariff } from "@/lib/domain/tariff/tariff";
import { clockOfMinutes, WEEKDAY_NAMES } from "@/lib/domain/tariff/week-words";

/** A tariff as the record keeps it, in words; null when there was none. */
export function tariffWords(tariff: Tariff | null): { currency: string; standingPerDay: string; bands: string[] } | null {
  if (tariff === null) return null;
  const { currency, scale, bands, standingPerDay } = tariff;
  const money = (amount: number): string => decimalText(amount, scale + minorDigits(currency));
  return {
    currency,
    standingPerDay: standingPerDay === null ? "none" : money(standingPerDay),
    bands: bands.map(({ name, weekdays, fromMin, toMin, price }) => {
      const days = weekdays.length === 7 ? "every day" : weekdays.map((day) => (WEEKDAY_NAMES[day - 1] ?? "").slice(0, 3)).join(" ");
      return `${name} ${days} ${clockOfMinutes(fromMin)} to ${clockOfMinutes(toMin)} at ${money(price)}`;
    }),
  };
}
