import type { CoolingTask } from "@/lib/domain/stress/cooling-task";
import { CoolingSearch } from "@/lib/domain/stress/cooling-search";
import { pathOf, shortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { temperatureAt } from "@/lib/domain/glass/viscosity";
import { descend } from "@/lib/domain/numeric/descend";
import { slabBody } from "@/lib/domain/shape/cooling-body";
import { impliedStresses } from "./implied-stresses";
import { LEAD_CRYSTAL_PROGRAMS, SODA_LIME_PROGRAMS, type SlabProgram } from "./thick-slab-tables";

/** The rows that the goals speak of. */
export const ROWS: readonly SlabProgram[] = [...SODA_LIME_PROGRAMS, ...LEAD_CRYSTAL_PROGRAMS].filter(({ thicknessMm }) => thicknessMm >= 19 && thicknessMm <= 150);

/** The bare slab of a row at limits of its own, dropped as fast as plaster allows, soaked as briefly as it needs. */
export function taskOf({ glass: id, thicknessMm }: SlabProgram, limits: CoolingTask["limits"]): CoolingTask {
  const glass = catalogueGlass(id);
  return { glass, body: slabBody(thicknessMm / 1000), limits, fromC: temperatureAt(glass.viscosity, 9), dropKPerH: 150, fastestKPerH: Infinity, leastSoakHours: 0 };
}

export type Compared = { readonly row: SlabProgram; readonly permanentMPa: number; readonly passingMPa: number; readonly ratio: number };

/** A row's own stresses, and the shortest cooling at those over the row, soak to room. */
export function compared(row: SlabProgram): Compared {
  const limits = impliedStresses(row);
  const task = taskOf(row, limits);
  const path = pathOf(task, shortestCooling(task));
  const hours = (path.at(-1)?.[0] ?? 0) - (path.at(-5)?.[0] ?? 0);
  return { row, ...limits, ratio: hours / row.hours };
}

/** How much longer the way found at once is than the best that so many descents from random starts find; 1 when it is the best. */
export function againstLongSearch(task: CoolingTask, starts: number, random: () => number): number {
  const own = new CoolingSearch(task);
  const found = own.hoursOf(own.shortest());
  let best = found;
  for (let i = 0; i < starts; i += 1) {
    const search = new CoolingSearch(task);
    const x = [-2.5 + 4 * random(), 3 + 6 * random(), 8 + 6 * random(), 1.5 * random()];
    best = Math.min(best, descend((one) => search.hoursOf(one), x, [1, 1, 1, 0.4], 1e-5, 400).cost);
  }
  return found / best;
}
