import type { FiringCost } from "@/lib/domain/tariff/firing-cost";
import { decimalText, moneyText } from "@/lib/domain/tariff/money";

/** "2.4567", in the currency's main unit. */
export function priceText(price: number, { priceDecimals }: Pick<FiringCost, "priceDecimals">): string {
  return decimalText(price, priceDecimals);
}

/** What a cost leaves out, and how far it may be off. */
export function costNote({ currency, standing }: Pick<FiringCost, "currency" | "standing">): string {
  const beside = standing === null ? "" : ` The standing charge of these days, ${moneyText(standing, currency)}, is paid with or without this firing and is not in the sum.`;
  return `An estimate: against published meter readings of a small kiln it lies within about a fifth. Only what the kiln draws is counted.${beside}`;
}
