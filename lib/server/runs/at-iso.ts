/** Epoch milliseconds as ISO 8601, written as Temporal writes an instant, without its cost. */
export function atIso(epochMs: number): string {
  return new Date(Math.ceil(epochMs)).toISOString().replace(/\.?0*Z$/, "Z");
}
