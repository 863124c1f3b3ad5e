import type { DaySettlement } from "@/lib/domain/settling/days/search-days";
import { settleDays } from "@/lib/domain/settling/days/settle-days";
import { clockBudget, iterationBudget, type Budget } from "@/lib/domain/settling/effort";
import { settleHours } from "@/lib/domain/settling/hours/settle-hours";
import type { SettledPlan, SettleTask } from "@/lib/server/settling/settle-task";
import type { SharedFigures } from "@/lib/server/settling/shared-figures";

/** Costs nearer than this to a bound are proven to be the least. */
export const SAME = 1e-6;

/** Looks for plans until the time, or the iterations, are over; gives the best and tells each better one. */
export function search(task: SettleTask, endsAtMs: number, shared: SharedFigures, onPlan: (plan: SettledPlan) => void): SettledPlan {
  const budget = budgetOf(task.iterations, endsAtMs, shared);
  const onBound = (bound: number): void => shared.offerBound(bound);
  const better = (plan: SettledPlan): void => {
    shared.offerCost(plan.cost);
    onPlan(plan);
  };
  if (task.kind === "hours") {
    const plan = settleHours(task.problem, task.seed, budget, { onBetter: (found) => better({ kind: "hours", ...found, leftOut: 0 }), onBound });
    return { kind: "hours", ...plan, leftOut: 0 };
  }
  // What another thread proves must not change a plan that is to repeat.
  const bound = (): number => (task.iterations === null ? shared.bound : 0);
  const onFound = (found: DaySettlement): void => {
    better({ kind: "days", ...found });
    if (found.leftOut === 0) shared.offerPlan(found);
  };
  // Nor must its plans be taken up.
  const elsewhere = (below: number): DaySettlement | undefined => {
    const found = task.iterations === null && shared.planCost < below - SAME ? shared.bestPlan() : undefined;
    return found && { ...found, leftOut: 0 };
  };
  const own = { onBetter: onFound, bound, elsewhere };
  const plan = settleDays(task.problem, task.seed, budget, { ...own, onBound: task.least === undefined ? onBound : () => undefined });
  return { kind: "days", ...plan };
}

export function budgetOf(iterations: number | null, endsAtMs: number, shared: SharedFigures): Budget {
  const clock = (): number => (performance.timeOrigin + performance.now()) / 1000;
  const stopped = (): boolean => shared.isStopped || clock() * 1000 >= endsAtMs;
  if (iterations !== null) return iterationBudget(iterations, stopped);
  // Whoever found it, nothing is left to do once the best plan is proven to be the best.
  return clockBudget(endsAtMs / 1000 - clock(), clock, () => stopped() || shared.bound >= shared.cost - SAME);
}
