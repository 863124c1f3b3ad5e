import { minorDigits } from "./currency";

/**
 * A decimal number as it was typed, without going through a float: "2,4567" is 24567 at 4 decimals. Zeros at the
 * end of the decimals say nothing and are left out. Undefined for anything else, also above 15 digits.
 */
export function decimalOf(typed: string): { readonly digits: number; readonly decimals: number } | undefined {
  const found = /^(\d+)(?:[.,](\d+))?$/.exec(typed.trim());
  if (found === null) return undefined;
  const fraction = (found[2] ?? "").replace(/0+$/, "");
  const digits = `${found[1] ?? ""}${fraction}`.replace(/^0+(?=\d)/, "");
  return digits.length > 15 ? undefined : { digits: Number(digits), decimals: fraction.length };
}

/**
 * Writes a whole number of the smallest unit out in the main one, digit by digit.
 *
 * @example decimalText(24567, 4) // "2.4567"
 */
export function decimalText(digits: number, decimals: number): string {
  const text = String(Math.abs(digits)).padStart(decimals + 1, "0");
  const whole = text.slice(0, text.length - decimals);
  const sign = digits < 0 ? "−" : "";
  return decimals === 0 ? `${sign}${whole}` : `${sign}${whole}.${text.slice(text.length - decimals)}`;
}

/** "DKK 1234.56", from whole minor units. */
export function moneyText(minorUnits: number, currency: string): string {
  return `${currency}\u00a0${decimalText(minorUnits, minorDigits(currency))}`;
}
