const QUARTER_HOUR_MS = 15 * 60_000;
/** Two years of quarter hours: a screen prints thousands of instants, the same ones again and again. */
const MOST_KEPT = 70_000;
const kept = new Map<number, string>();

/** Epoch milliseconds as ISO 8601, written as Temporal writes an instant, without its cost. */
export function atIso(epochMs: number): string {
  if (epochMs % QUARTER_HOUR_MS !== 0) return write(epochMs);
  const known = kept.get(epochMs);
  if (known !== undefined) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const text = write(epochMs);
  kept.set(epochMs, text);
  return text;
}

function write(epochMs: number): string {
  return new Date(Math.ceil(epochMs)).toISOString().replace(/\.?0*Z$/, "Z");
}
