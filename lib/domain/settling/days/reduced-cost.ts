import { dayRoom, sumPrices } from "@/lib/domain/settling/days/day-lagrangian";
import { windowsOf, type DayTables } from "@/lib/domain/settling/days/day-tables";

/**
 * The same tables without the starts that no plan cheaper than `ceiling` can use: those whose price
 * above their run's cheapest choice would lift the bound to the ceiling. Exact: what is cut away
 * cannot be part of a better plan. `kept` counts the starts that stay.
 */
export function withinCeiling(tables: DayTables, prices: Float64Array, ceiling: number): { readonly tables: DayTables; readonly kept: number } {
  const { classes, span, jobs, rowOf, first, last, cost } = tables;
  const paid = new Float64Array((classes + 1) * (span + 1));
  const end = Int16Array.from(tables.end);
  const least = new Float64Array(jobs);
  const price = (job: number, cls: number, s: number): number => {
    const e = tables.end[rowOf[job * classes + cls]! + s]!;
    if (e < 0) return Infinity;
    const at = cls * (span + 1);
    return cost[rowOf[job * classes + cls]! + s]! + paid[at + e]! - paid[at + s]! + prices[classes * span + s]! + prices[classes * span + e]!;
  };
  let bound = sumPrices(tables, prices, dayRoom(tables), paid);
  for (let job = 0; job < jobs; job++) {
    let lowest = Infinity;
    for (let cls = 0; cls < classes; cls++) for (let s = first[job * classes + cls]!; s <= last[job * classes + cls]!; s++) lowest = Math.min(lowest, price(job, cls, s));
    least[job] = lowest;
    if (lowest < Infinity) bound += lowest;
  }
  let kept = 0;
  for (let job = 0; job < jobs; job++) {
    const most = ceiling - bound + least[job]! + 1e-6;
    for (let cls = 0; cls < classes; cls++) {
      for (let s = first[job * classes + cls]!; s <= last[job * classes + cls]!; s++) {
        if (price(job, cls, s) <= most) kept += tables.end[rowOf[job * classes + cls]! + s]! >= 0 ? 1 : 0;
        else end[rowOf[job * classes + cls]! + s] = -1;
      }
    }
  }
  const windows = windowsOf({ rowOf, end }, span);
  const fits = tables.fits.map((kilns, job) => kilns.filter((kiln) => windows.last[job * classes + tables.classOf[kiln]!]! >= windows.first[job * classes + tables.classOf[kiln]!]!));
  return { tables: { ...tables, ...windows, end, fits }, kept };
}
