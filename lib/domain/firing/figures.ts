/**
 * Numbers as a sentence shows them: enough digits to act on, no more.
 *
 * @example inDigits(0.9963) // "1.0"; inDigits(482.4) // "482"
 */
export function inDigits(value: number): string {
  const size = Math.abs(value);
  if (size >= 20) return String(Math.round(value));
  if (size >= 1) return value.toFixed(1);
  if (size >= 0.01) return value.toFixed(2);
  return value === 0 ? "0" : value.toPrecision(2);
}

export function hoursInWords(hours: number): string {
  return hours < 48 ? `${inDigits(hours)} h` : `${inDigits(hours)} h (${inDigits(hours / 24)} days)`;
}
