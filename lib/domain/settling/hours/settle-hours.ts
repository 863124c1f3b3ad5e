import type { Budget, Effort } from "@/lib/domain/settling/effort";
import { boundHours } from "@/lib/domain/settling/hours/hour-bound";
import { hourCost, type HourPlacement, type HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { asOneKiln, type OneKiln } from "@/lib/domain/settling/hours/one-kiln";
import { searchHours, type HourPlan } from "@/lib/domain/settling/hours/search";
import { searchOneKiln } from "@/lib/domain/settling/hours/search-one-kiln";
import { seededRandom, type Random } from "@/lib/domain/settling/random";

export type HourHooks = {
  readonly onBetter: (plan: HourPlan) => void;
  /** A proven lower bound; each is better than the one before. */
  readonly onBound: (bound: number) => void;
};

/** A short search gives the bound a cost to aim at; the bound may end the long one. */
const FIRST_SHARE = 0.1;
const BOUND_SHARE = 0.2;

/**
 * The best plan in hours found within the budget, and a proven bound: iterated dynasearch where one
 * kiln takes all and only the order counts, ruin and recreate otherwise.
 */
export function settleHours(problem: HourProblem, seed: number, budget: Budget, { onBetter, onBound }: HourHooks): HourPlan {
  const random = seededRandom(seed);
  let best: HourPlan | undefined;
  let bound = 0;
  const look = (effort: Effort): HourPlan => {
    const found = searchFor(problem, random, effort, (plan) => {
      if (best === undefined || plan.cost < best.cost) onBetter(plan);
    }, () => bound);
    if (best === undefined || found.cost < best.cost) best = found;
    return best;
  };
  const first = look(budget.part(FIRST_SHARE));
  if (first.cost <= bound) return first;
  bound = boundHours(problem, () => first.cost, budget, BOUND_SHARE, onBound);
  return first.cost <= bound || budget.isSpent() ? first : look(budget.part(1));
}

function searchFor(problem: HourProblem, random: Random, effort: Effort, onBetter: (plan: HourPlan) => void, goal: () => number): HourPlan {
  const one = asOneKiln(problem);
  if (one === undefined) return searchHours(problem, random, effort, onBetter, goal);
  return planOf(problem, one, searchOneKiln(one, random, effort, (order) => onBetter(planOf(problem, one, order)), goal));
}

function planOf(problem: HourProblem, one: OneKiln, order: Int32Array): HourPlan {
  let end = one.startH;
  const placements = Array.from(order, (ask): HourPlacement => {
    const fromH = end;
    end += one.hours[ask]!;
    return { ask, kiln: 0, fromH, toH: end };
  });
  return { placements, cost: hourCost(problem, placements) };
}
