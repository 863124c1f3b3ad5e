import { costStep, roundedDayBound } from "@/lib/domain/settling/days/day-bound";
import { dayModel, planOfSolution } from "@/lib/domain/settling/days/day-model";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import { dayTables, type DayTables } from "@/lib/domain/settling/days/day-tables";
import { dealOut } from "@/lib/domain/settling/days/deal-out";
import { withinCeiling } from "@/lib/domain/settling/days/reduced-cost";
import { settlementOf, type DaySettlement } from "@/lib/domain/settling/days/search-days";
import { climbDays } from "@/lib/domain/settling/days/settle-days";
import { verifyDays } from "@/lib/domain/settling/verify";
import { DayImprover } from "@/lib/server/settling/improve-days";
import { budgetOf } from "@/lib/server/settling/search";
import type { DaysTask, SettledPlan } from "@/lib/server/settling/settle-task";
import type { SharedFigures } from "@/lib/server/settling/shared-figures";
import { loadSolver } from "@/lib/server/settling/solver";

/** A model with more columns does not get beyond its first bound in useful time, and wants a gigabyte. */
const MOST_COLUMNS = 30_000;
/** So many starts are solved faster than a search would make them fewer. */
const FEW_COLUMNS = 4_000;
/** With more, the model aims lower first: at a cost this share of the way from the bound to the best plan known. */
const AIMS = [1, 0.5, 0.25, 0.1, 0.05, 0.02];
/** Beside a search that may still find better plans by itself, it gets this share of the time, and no more than so long, to find a cost worth proving. */
const WAIT_SHARE = 0.1;
const MOST_WAIT_MS = 1_500;
/** A proof begins again on fewer columns once the cost has come down by this share of the gap. */
const AGAIN = 0.3;

/** Beside a search, a plan far from being proven gives a first bound for this share of the time, and is then bettered part by part up to that share. */
const BOUND_SHARE = 0.2;
const BETTER_SHARE = 0.85;

type ToProve = Pick<DaysTask, "problem" | "least">;

/** `few`: so many starts are solved at once. */
export type ProofOptions = { readonly isBesideSearch?: boolean; readonly few?: number };

/**
 * Proves how good a settlement in days can be at most: Lagrangian prices, then an exact model of the
 * starts that a plan below a ceiling can use. Where those for the best plan known are many, the ceiling
 * is lower: either nothing is below it, which lifts the bound to it, or a plan is, and the best of
 * those is the best of all. Offers a bound only up to the ceiling, above which the cut proves nothing.
 */
export async function proveDays({ problem: wanted, least }: ToProve, endsAtMs: number, shared: SharedFigures, onPlan: (plan: SettledPlan) => void, { isBesideSearch = true, few = FEW_COLUMNS }: ProofOptions = {}): Promise<void> {
  const now = (): number => performance.timeOrigin + performance.now();
  const isOver = (): boolean => shared.isStopped || now() >= endsAtMs || shared.bound >= shared.cost - 1e-6;
  if (isOver()) return;
  const problem = least ?? wanted;
  const tables = dayTables(problem);
  const step = costStep(problem);
  await waitUntil(() => shared.cost < Infinity || isOver());
  const known = shared.cost;
  const { prices } = climbDays(tables, { placements: [], cost: known, leftOut: Math.floor(known / LEFT_OUT) }, budgetOf(null, endsAtMs, shared), 0.1, { onBound: (bound) => shared.offerBound(bound) });
  const solve = await loadSolver();
  const proofFrom = !isBesideSearch ? now() : now() + Math.min(MOST_WAIT_MS, WAIT_SHARE * (endsAtMs - now()));
  const improver = new DayImprover(problem, tables, prices, solve);
  const left = endsAtMs - now();
  // Parts of a smaller problem better no plan of the wanted one.
  const [boundUntil, betterUntil] = isBesideSearch && least === undefined ? [now() + BOUND_SHARE * left, now() + BETTER_SHARE * left] : [endsAtMs, 0];
  const take = (settlement: DaySettlement): void => {
    if (settlement.leftOut > 0 || !(settlement.cost < shared.cost - 1e-6) || verifyDays(problem, settlement.placements).length > 0) return;
    shared.offerCost(settlement.cost);
    shared.offerPlan(settlement);
    onPlan({ kind: "days", ...settlement });
  };
  while (!isOver()) {
    const [cost, bound] = [shared.cost, shared.bound];
    const { ceiling, cut, kept } = lowered(tables, prices, cost, bound, few);
    const isFar = ceiling < cost || kept > few;
    const plan = isFar && now() >= boundUntil && now() < betterUntil && !improver.isStuck ? shared.bestPlan() : undefined;
    if (plan !== undefined) {
      improver.step(plan, () => now() / 1000, isOver, take);
      continue;
    }
    if (kept > few && now() < proofFrom) {
      await waitUntil(() => shared.cost < cost || now() >= proofFrom || isOver());
      continue;
    }
    const model = dayModel(cut, MOST_COLUMNS);
    if (model === undefined) {
      if (!isBesideSearch) return;
      await waitUntil(() => shared.cost < cost || isOver());
      continue;
    }
    const offer = (bound: number): void => shared.offerBound(Math.min(ceiling, roundedDayBound(bound, step)));
    const until = isFar && now() < boundUntil ? boundUntil : endsAtMs;
    const status = solve(model, (until - now()) / 1000, {
      onBound: offer,
      onSolution: (values) => {
        // A plan of the smaller problem is none of the wanted one.
        if (least !== undefined) return;
        const plan = planOfSolution(cut, model, values);
        if (plan === undefined) return;
        take(settlementOf(dealOut(plan)));
      },
      isOver: () => isOver() || ceiling - shared.cost > AGAIN * (ceiling - shared.bound),
    });
    if (status === "infeasible") offer(ceiling);
    // A solution that rounding made no plan proves nothing twice.
    if (status !== "ended" && !(now() < betterUntil) && shared.cost === cost && shared.bound === bound) return;
  }
}

/** The starts for the highest ceiling that leaves few of them. */
function lowered(tables: DayTables, prices: Float64Array, cost: number, bound: number, few: number): { readonly ceiling: number; readonly cut: DayTables; readonly kept: number } {
  const aimed = (aim: number) => {
    const ceiling = aim === 1 ? cost : bound + aim * (cost - bound);
    const { tables: cut, kept } = withinCeiling(tables, prices, ceiling);
    return { ceiling, cut, kept };
  };
  let found = aimed(1);
  for (const aim of AIMS.slice(1)) if (found.kept > few) found = aimed(aim);
  return found;
}

async function waitUntil(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise((resolve) => setTimeout(resolve, 5));
}
