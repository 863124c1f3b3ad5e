import type { Annealing } from "@/lib/domain/settling/annealing";
import { candidatesOf } from "@/lib/domain/settling/days/class-candidates";
import type { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { searchClasses } from "@/lib/domain/settling/days/class-search";
import { costStep, roundedDayBound } from "@/lib/domain/settling/days/day-bound";
import { dayLagrangian } from "@/lib/domain/settling/days/day-lagrangian";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayTables, type DayTables } from "@/lib/domain/settling/days/day-tables";
import { dealOut } from "@/lib/domain/settling/days/deal-out";
import { dive } from "@/lib/domain/settling/days/dive";
import { withinCeiling } from "@/lib/domain/settling/days/reduced-cost";
import { OpToll } from "@/lib/domain/settling/days/op-toll";
import { insertMissing, putTogether } from "@/lib/domain/settling/days/put-together";
import { planOf, searchDays, settlementOf, type DaySettlement } from "@/lib/domain/settling/days/search-days";
import { byIterations, type Budget, type Effort } from "@/lib/domain/settling/effort";
import { seededRandom, type Random } from "@/lib/domain/settling/random";
import { climb, climbSteps } from "@/lib/domain/settling/subgradient";

export type DayHooks = {
  readonly onBetter: (plan: DaySettlement) => void;
  /** A proven lower bound; each is better than the one before. */
  readonly onBound: (bound: number) => void;
  /** The best bound known to anybody. */
  readonly bound: () => number;
  /** A whole plan cheaper than this that somebody else has found, if there is one. */
  readonly elsewhere?: (below: number) => DaySettlement | undefined;
};

/** Above so many runs, classes of kilns are searched before single kilns. */
const MANY = 300;
const AIMS = [0.002, 0.001, 0.0005];
/** Steps to a first bound, before anything is searched for: a twentieth of a second. */
const FIRST_STEPS = 300;
/** Choices of a run that are looked at while prices make a plan. */
const CHOICES = 200;
/**
 * Rounds of the search on few kilns: one annealing in parts, each on the starts that a plan better
 * than the best so far can use, with room to pass through. Heat is in shares of the mean cost of a
 * run in the plan that is started from.
 */
const PARTS = 10;
const PART = 0.08;
const HOT = 0.8;
const COLD = 0.04;
const SLACK = 0.2;
/** The search before there are good prices, and its share. */
const QUICK = 0.05;
/** Rounds where there are many: shares of the budget, and how far above the best cost the cuts leave room to pass through. */
const ROUNDS = [
  { share: 0.15, slack: 0.25, heat: 1 },
  { share: 0.15, slack: 0.2, heat: 1 },
  { share: 0.2, slack: 0.15, heat: 0.8 },
  { share: 0.2, slack: 0.15, heat: 0.8 },
  { share: 1, slack: 0.1, heat: 0.6 },
];
/** Their heat as shares of the mean cost of a run. */
const HOT_MANY = 0.04;
const COLD_MANY = 0.005;

/**
 * The best settlement in days found within the budget: a plan put together cheaply, Lagrangian prices
 * that aim at it, plans made of the prices, then search, first by classes of kilns where there are
 * many, then kiln by kiln on the starts that the prices say a better plan can use.
 */
export function settleDays(problem: DayProblem, seed: number, budget: Budget, hooks: DayHooks): DaySettlement {
  const random = seededRandom(seed);
  const isMany = problem.jobs.length > MANY;
  // With few runs a first plan takes no time worth counting.
  const isOver = (): boolean => isMany && budget.isSpent();
  const tables = dayTables(problem, isOver);
  const best = new Best(hooks);
  const mean = (): number => Math.max(0.5, (best.plan.cost - best.plan.leftOut * LEFT_OUT) / tables.jobs);
  const every = candidatesOf(tables, new Float64Array((tables.classes + 1) * tables.span), isMany ? CHOICES : Infinity, undefined, isOver);
  const first = settlementOf(dealOut(putTogether(tables, every, isOver)));
  best.take(first.leftOut > 0 && isOver() ? { ...first, isCutShort: true } : first);
  if (isOver()) return best.plan;
  if (!isMany) {
    climbFrom(tables, best.plan, byIterations(FIRST_STEPS), hooks);
    best.take(searchDays(planOf(tables, best.plan), random, budget.part(QUICK), best.take, hooks.bound, heatOf(mean(), 0, 1), new OpToll(HOT * mean())));
  }
  const { prices } = climbDays(tables, best.plan, budget, isMany ? 0.3 : 0.12, hooks);
  if (best.isProven() || budget.isSpent()) return best.plan;
  const made = plansOfPrices(tables, prices, budget, AIMS);
  for (const plan of made) best.take(settlementOf(dealOut(plan)));
  if (isMany && made.length > 0 && !budget.isSpent()) best.take(searchMany(made.reduce((a, b) => (b.cost < a.cost ? b : a)), prices, random, budget));
  const go = (share: number, slack: number, annealing: Annealing, toll?: OpToll): void => {
    if (best.isProven() || budget.isSpent()) return;
    const other = hooks.elsewhere?.(best.plan.cost);
    if (other !== undefined) best.take(other);
    const narrow = best.plan.leftOut > 0 ? tables : withinCeiling(tables, prices, best.plan.cost + slack).tables;
    best.take(searchDays(planOf(narrow, best.plan), random, budget.part(share), best.take, hooks.bound, annealing, toll));
  };
  const gap = (): number => Math.max(1, best.plan.cost - hooks.bound());
  if (isMany) for (const { share, slack, heat } of ROUNDS) go(share, slack * gap(), { hot: heat * HOT_MANY * mean(), cold: heat * COLD_MANY * mean() });
  else {
    const before = mean();
    const toll = new OpToll(HOT * before);
    for (let part = 0; part < PARTS; part++) {
      const annealing = heatOf(before, part / PARTS, (part + 1) / PARTS);
      go(part < PARTS - 1 ? PART : 1, SLACK * gap() + annealing.hot, annealing, toll);
    }
  }
  return best.plan;
}

/** A stretch of the one annealing, from 0 to 1. */
function heatOf(mean: number, from: number, to: number): Annealing {
  const at = (share: number): number => mean * HOT * Math.pow(COLD / HOT, share);
  return { hot: at(from), cold: at(to) };
}

/** The best plan so far, told when it changes. */
class Best {
  plan: DaySettlement = { placements: [], cost: Infinity, leftOut: 0 };
  constructor(private readonly hooks: DayHooks) {}

  readonly take = (plan: DaySettlement): void => {
    if (!(plan.cost < this.plan.cost)) return;
    this.plan = plan;
    this.hooks.onBetter(plan);
  };

  isProven(): boolean {
    return this.plan.cost <= this.hooks.bound() + 1e-6;
  }
}

/** Plans made by diving from the prices, whole where anything still fits anywhere. */
function plansOfPrices(tables: DayTables, prices: Float64Array, budget: Budget, aims: readonly number[]): ClassPlan[] {
  const isOver = (): boolean => budget.isSpent();
  const promising = candidatesOf(tables, prices, CHOICES, undefined, isOver);
  return aims.flatMap((aim) => {
    if (budget.isSpent()) return [];
    const plan = dive(tables, promising, prices, budget.steps(tables.jobs, 0.3 / aims.length), aim);
    insertMissing(plan, prices, isOver);
    return [plan];
  });
}

/** Improves a plan of classes and days, and deals it out. */
function searchMany(plan: ClassPlan, prices: Float64Array, random: Random, budget: Budget): DaySettlement {
  const { tables } = plan;
  const mean = (plan.cost % LEFT_OUT) / tables.jobs;
  searchClasses(plan, candidatesOf(tables, prices, CHOICES), random, budget.part(0.25), { hot: 0.03 * mean, cold: 0.002 * mean });
  return settlementOf(dealOut(plan));
}

type Prices = { readonly prices: Float64Array; readonly bound: number };

/** Raises the Lagrangian bound towards the best plan and tells it, rounded the right way. */
export function climbDays(tables: DayTables, best: DaySettlement, budget: Budget, share: number, hooks: Pick<DayHooks, "onBound">): Prices {
  return climbFrom(tables, best, budget.steps(climbSteps(dayLagrangian(tables)), share), hooks);
}

function climbFrom(tables: DayTables, best: DaySettlement, effort: Effort, { onBound }: Pick<DayHooks, "onBound">): Prices {
  const lagrangian = dayLagrangian(tables);
  const step = costStep(tables.problem);
  // Runs without a place say nothing about what a plan costs.
  const target = Math.max(1, best.cost - best.leftOut * LEFT_OUT);
  return climb(lagrangian, new Float64Array(lagrangian.size), () => target, effort, (bound) => onBound(roundedDayBound(bound, step)));
}
