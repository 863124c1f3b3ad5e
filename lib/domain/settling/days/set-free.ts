import { firstAtOrAfter, windowsOf, type DayTables } from "@/lib/domain/settling/days/day-tables";
import type { DayPlacement } from "@/lib/domain/settling/days/day-problem";
import type { Random } from "@/lib/domain/settling/random";

/** Calendar days by which chance makes a run seem nearer or farther than it is. */
const BLUR_DAYS = 25;
/** A run on a kiln that the first one cannot use counts as so many days farther away. */
const ELSEWHERE_DAYS = 6;
/** How often the first one is drawn by what it costs, rather than evenly; what a run that costs nothing counts then. */
const BY_COST = 0.7;
const LEAST_COST = 0.1;

/** The runs of a plan that stand around one of them, by days and kilns, `count` at most; for these alone to be settled anew. */
export function runsAround(tables: DayTables, plan: readonly DayPlacement[], costOf: (placement: DayPlacement) => number, count: number, random: Random): Set<number> {
  const first = drawn(plan, costOf, random);
  if (first === undefined) return new Set();
  const kilns = new Set(tables.fits[first.job]);
  const middle = [first.start, first.end, (first.start + first.end) / 2][random.below(3)]!;
  const near = plan.map((one) => ({
    job: one.job,
    far: one.job === first.job ? -1 : Math.max(0, one.start - middle, middle - one.end) + BLUR_DAYS * random.next() + (kilns.has(one.kiln) ? 0 : ELSEWHERE_DAYS),
  }));
  return new Set(near.sort((a, b) => a.far - b.far).slice(0, count).map(({ job }) => job));
}

function drawn(plan: readonly DayPlacement[], costOf: (placement: DayPlacement) => number, random: Random): DayPlacement | undefined {
  if (plan.length === 0) return undefined;
  if (random.next() >= BY_COST) return plan[random.below(plan.length)];
  const weights = plan.map((one) => LEAST_COST + costOf(one));
  let left = random.next() * weights.reduce((sum, weight) => sum + weight, 0);
  return plan.find((_, i) => (left -= weights[i]!) <= 0) ?? plan.at(-1);
}

/**
 * The same tables in which all runs but the free ones have only the start they have in the plan. A run
 * whose start the tables no longer have is free too: no plan that they are for can keep it there.
 */
export function setFree(tables: DayTables, plan: readonly DayPlacement[], free: ReadonlySet<number>): DayTables {
  const { classes, span, rowOf, classOf, dayOf } = tables;
  const end = Int16Array.from(tables.end);
  for (const { job, kiln, start } of plan) {
    const at = firstAtOrAfter(dayOf, start);
    const own = rowOf[job * classes + classOf[kiln]!]!;
    if (free.has(job) || own < 0 || !(tables.end[own + at]! >= 0)) continue;
    for (let cls = 0; cls < classes; cls++) {
      const row = rowOf[job * classes + cls]!;
      if (row >= 0) end.fill(-1, row, row + span);
    }
    end[own + at] = tables.end[own + at]!;
  }
  return { ...tables, ...windowsOf({ rowOf, end }, span), end };
}
