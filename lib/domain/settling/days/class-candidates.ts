import { dayRoom, sumPrices } from "@/lib/domain/settling/days/day-lagrangian";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";

/** By job: choices worth trying (class × span + start), the most promising first. */
export type Candidates = readonly Int32Array[];

/**
 * The choices of every job that are cheapest at the given prices, cheapest first. Prices tell what a
 * day is worth to all others, so taking the first choice that fits is not greedy at their expense.
 * Jobs outside `only` get none, nor do those that are left when `isOver`, asked between jobs, is true.
 */
export function candidatesOf(tables: DayTables, prices: Float64Array, most: number, only?: ReadonlySet<number>, isOver: () => boolean = () => false): Candidates {
  const { jobs, classes, span, rowOf, first, last, end, cost } = tables;
  const paid = new Float64Array((classes + 1) * (span + 1));
  sumPrices(tables, prices, dayRoom(tables), paid);
  const priced = new Float64Array(classes * span);
  const ops = classes * span;
  return Array.from({ length: jobs }, (_, job) => {
    const found: number[] = [];
    if (only?.has(job) === false || isOver()) return Int32Array.of();
    for (let cls = 0; cls < classes; cls++) {
      const at = job * classes + cls;
      const row = rowOf[at]!;
      if (row < 0) continue;
      const from = cls * (span + 1);
      for (let s = first[at]!; s <= last[at]!; s++) {
        const e = end[row + s]!;
        if (e < 0) continue;
        priced[cls * span + s] = cost[row + s]! + paid[from + e]! - paid[from + s]! + prices[ops + s]! + prices[ops + e]!;
        found.push(cls * span + s);
      }
    }
    return Int32Array.from(cheapest(found, priced, most).sort((a, b) => priced[a]! - priced[b]! || a - b).slice(0, most));
  });
}

/** Those that are among the `most` cheapest, and what costs the same as the last of them; numbers alone sort much faster. */
function cheapest(choices: number[], priced: Float64Array, most: number): number[] {
  if (choices.length <= most) return choices;
  const last = Float64Array.from(choices, (choice) => priced[choice]!).sort()[most - 1]!;
  return choices.filter((choice) => priced[choice]! <= last);
}
