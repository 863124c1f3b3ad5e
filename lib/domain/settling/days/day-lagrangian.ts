import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import type { Lagrangian } from "@/lib/domain/settling/subgradient";

/**
 * Prices on what runs compete for: kiln days by class of kiln, and loads and unloads by day. Each run
 * alone pays and picks its cheapest kiln and days; what all pay, less what the prices allow for the
 * room there is, is a proven lower bound. Steamers and power are left out, which only lowers it.
 *
 * Prices stand class by class, then the days: `class × span + index`, and `classes × span + index`.
 */
export function dayLagrangian(tables: DayTables): Lagrangian {
  const { classes, span, jobs } = tables;
  const size = (classes + 1) * span;
  const room = dayRoom(tables);
  const paid = new Float64Array((classes + 1) * (span + 1));
  return {
    size,
    work: tables.first.reduce((sum, first, at) => sum + Math.max(0, tables.last[at]! - first + 1), 0),
    evaluate: (prices, slope) => {
      let value = sumPrices(tables, prices, room, paid);
      for (let i = 0; i < size; i++) slope[i] = -room[i]!;
      for (let job = 0; job < jobs; job++) value += cheapestChoice(tables, job, prices, paid, slope);
      return value;
    },
  };
}

/** Kiln days there are by class and index, then loads and unloads there are by index. */
export function dayRoom({ classOf, classes, span, kilns, freeUntil, ops }: DayTables): Float64Array {
  const room = new Float64Array((classes + 1) * span);
  for (let kiln = 0; kiln < kilns; kiln++) {
    const cls = classOf[kiln]!;
    for (let i = 0; i < span; i++) if (freeUntil[kiln * span + i]! > i) room[cls * span + i]!++;
  }
  for (let i = 0; i < span; i++) room[classes * span + i] = ops[i]!;
  return room;
}

/** Fills what is paid for all days before an index, class by class; gives what the room there is takes off. */
export function sumPrices({ classes, span }: DayTables, prices: Float64Array, room: Float64Array, paid: Float64Array): number {
  let value = 0;
  for (let cls = 0; cls <= classes; cls++) {
    const from = cls * span;
    const to = cls * (span + 1);
    paid[to] = 0;
    for (let i = 0; i < span; i++) {
      const price = prices[from + i]!;
      paid[to + i + 1] = paid[to + i]! + price;
      value -= price * room[from + i]!;
    }
  }
  return value;
}

/** The cheapest way of one run at these prices; adds what it uses to `slope`. */
function cheapestChoice({ classes, span, rowOf, first, last, rises, end, cost }: DayTables, job: number, prices: Float64Array, paid: Float64Array, slope: Float64Array): number {
  const opsAt = classes * span;
  const turn = rises[job]!;
  let least = Infinity;
  let bestClass = -1;
  let bestStart = 0;
  let bestEnd = 0;
  for (let cls = 0; cls < classes; cls++) {
    const row = rowOf[job * classes + cls]!;
    if (row < 0) continue;
    const at = cls * (span + 1);
    const stop = last[job * classes + cls]!;
    for (let s = first[job * classes + cls]!; s <= stop; s++) {
      const e = end[row + s]!;
      if (e < 0) continue;
      const own = cost[row + s]!;
      if (own >= least) {
        if (s >= turn) break;
        continue;
      }
      const sum = own + paid[at + e]! - paid[at + s]! + prices[opsAt + s]! + prices[opsAt + e]!;
      if (sum < least) {
        least = sum;
        bestClass = cls;
        bestStart = s;
        bestEnd = e;
      }
    }
  }
  if (bestClass < 0) return 0;
  const kilnDays = bestClass * span;
  for (let i = bestStart; i < bestEnd; i++) slope[kilnDays + i]!++;
  slope[opsAt + bestStart]!++;
  slope[opsAt + bestEnd]!++;
  return least;
}
