/** A number for reading: fixed decimals, a real minus sign, thin spaces between thousands. */
export function numberText(value: number, decimals = 0): string {
  if (!Number.isFinite(value)) return "–";
  const rounded = value.toFixed(decimals);
  const [whole = "", fraction] = rounded.replace("-", "").split(".");
  const grouped = whole.length > 4 ? whole.replaceAll(/\B(?=(\d{3})+$)/g, "\u202f") : whole;
  const sign = Number(rounded) < 0 ? "\u2212" : "";
  return `${sign}${grouped}${fraction === undefined ? "" : `.${fraction}`}`;
}

/** A rate with its sign, e.g. "+12 K/h", "−1.4 K/h", "hold". */
export function rateText(kPerH: number): string {
  if (kPerH === 0) return "hold";
  const decimals = Math.abs(kPerH) < 10 ? 1 : 0;
  return `${kPerH > 0 ? "+" : ""}${numberText(kPerH, decimals)} K/h`;
}
