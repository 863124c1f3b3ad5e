import { SECONDS_PER_HOUR } from "@/lib/domain/units";
import type { HistoryRow } from "./simulate";

/**
 * One figure of a simulated history at a time, straight between its rows; undefined outside the history.
 * Rows lie so close that this adds less than the simulation's own error.
 */
export function historyAt(history: readonly HistoryRow[], seconds: number, key: keyof HistoryRow): number | undefined {
  const h = seconds / SECONDS_PER_HOUR;
  const next = history.findIndex((row) => row.h >= h);
  const [before, after] = [history[next - 1], history[next]];
  if (after === undefined || h < 0) return undefined;
  if (before === undefined) return after[key];
  return before[key] + ((after[key] - before[key]) * (h - before.h)) / (after.h - before.h);
}
