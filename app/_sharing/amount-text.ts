import { moneyText } from "@/lib/domain/tariff/money";

/** Money, or energy while the workshop has no tariff: the amount is then in watt-hours. */
export function amountText(amount: number, currency: string | null): string {
  return currency === null ? `${(amount / 1000).toFixed(1)} kWh` : moneyText(amount, currency);
}
