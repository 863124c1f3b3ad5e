/** Currencies whose smallest coin is not a hundredth (ISO 4217, from memory); all others have two digits. */
const OTHER_DIGITS: Readonly<Record<string, number>> = {
  BIF: 0, CLP: 0, DJF: 0, GNF: 0, ISK: 0, JPY: 0, KMF: 0, KRW: 0, PYG: 0, RWF: 0, UGX: 0, VND: 0, VUV: 0, XAF: 0, XOF: 0, XPF: 0,
  BHD: 3, IQD: 3, JOD: 3, KWD: 3, LYD: 3, OMR: 3, TND: 3,
};

/** Three capital letters, as ISO 4217 writes them. */
export function isCurrencyCode(code: string): boolean {
  return /^[A-Z]{3}$/.test(code);
}

/** Decimals of the currency's main unit: 2 for a crown of 100 øre. */
export function minorDigits(code: string): number {
  return OTHER_DIGITS[code] ?? 2;
}
