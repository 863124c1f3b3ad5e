import { dayLagrangian } from "@/lib/domain/settling/days/day-lagrangian";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { costStep, roundedDayBound } from "@/lib/domain/settling/days/day-bound";
import { dayTables, type DayTables } from "@/lib/domain/settling/days/day-tables";
import { withinCeiling } from "@/lib/domain/settling/days/reduced-cost";
import { firstPlan, planOf, searchDays, type DaySettlement } from "@/lib/domain/settling/days/search-days";
import type { Budget } from "@/lib/domain/settling/effort";
import { seededRandom } from "@/lib/domain/settling/random";
import { climb, climbSteps } from "@/lib/domain/settling/subgradient";

export type DayHooks = {
  readonly onBetter: (plan: DaySettlement) => void;
  /** A proven lower bound; each is better than the one before. */
  readonly onBound: (bound: number) => void;
  /** The best bound known to anybody. */
  readonly bound: () => number;
};

/** Shares of the budget, and how far above the best cost the cuts leave room to pass through. */
const ROUNDS = [
  { share: 0.3, slack: 0.25 },
  { share: 0.3, slack: 0.15 },
  { share: 1, slack: 0.1 },
];

/**
 * The best settlement in days found within the budget: a first search, Lagrangian prices, then rounds
 * of search on the starts that the prices say a better plan can use, fewer in every round.
 */
export function settleDays(problem: DayProblem, seed: number, budget: Budget, hooks: DayHooks): DaySettlement {
  const random = seededRandom(seed);
  const tables = dayTables(problem);
  const goal = (): number => hooks.bound();
  let best = searchDays(firstPlan(tables, random), random, budget.part(0.08), hooks.onBetter, goal);
  const { prices } = climbDays(tables, best, budget, hooks);
  for (const { share, slack } of ROUNDS) {
    if (best.cost <= goal() + 1e-6 || budget.isSpent()) break;
    const gap = Math.max(1, best.cost - hooks.bound());
    const narrow = best.leftOut > 0 ? tables : withinCeiling(tables, prices, best.cost + slack * gap).tables;
    const found = searchDays(planOf(narrow, best), random, budget.part(share), (plan) => {
      if (plan.cost < best.cost) hooks.onBetter(plan);
    }, goal);
    if (found.cost < best.cost) best = found;
  }
  return best;
}

/** Raises the Lagrangian bound towards the best plan and tells it, rounded the right way. */
export function climbDays(tables: DayTables, best: DaySettlement, budget: Budget, { onBound }: Pick<DayHooks, "onBound">): { readonly prices: Float64Array; readonly bound: number } {
  const lagrangian = dayLagrangian(tables);
  const step = costStep(tables.problem);
  // Without a whole plan there is no cost to aim at; what is placed is a sign of the size.
  const target = best.leftOut > 0 ? best.placements.length : best.cost;
  return climb(lagrangian, new Float64Array(lagrangian.size), () => target, budget.steps(climbSteps(lagrangian), 0.15), (bound) => onBound(roundedDayBound(bound, step)));
}
