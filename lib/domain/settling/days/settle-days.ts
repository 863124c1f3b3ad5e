import { candidatesOf, type Candidates } from "@/lib/domain/settling/days/class-candidates";
import { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { insertCheapest, searchClasses } from "@/lib/domain/settling/days/class-search";
import { costStep, roundedDayBound } from "@/lib/domain/settling/days/day-bound";
import { dayLagrangian } from "@/lib/domain/settling/days/day-lagrangian";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayTables, type DayTables } from "@/lib/domain/settling/days/day-tables";
import { dealOut } from "@/lib/domain/settling/days/deal-out";
import { dive } from "@/lib/domain/settling/days/dive";
import { withinCeiling } from "@/lib/domain/settling/days/reduced-cost";
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
};

/** Above so many runs, classes of kilns are searched before single kilns. */
const MANY = 300;
const AIMS = [0.002, 0.001, 0.0005];
/** Steps to a first bound, before anything is searched for: a twentieth of a second. */
const FIRST_STEPS = 300;
/** Choices of a run that are looked at while prices make a plan. */
const CHOICES = 200;
/** Rounds of the search on kilns: shares of the budget, and how far above the best cost the cuts leave room to pass through. */
const ROUNDS = [
  { share: 0.15, slack: 0.25, heat: 1 },
  { share: 0.15, slack: 0.2, heat: 1 },
  { share: 0.2, slack: 0.15, heat: 0.8 },
  { share: 0.2, slack: 0.15, heat: 0.8 },
  { share: 1, slack: 0.1, heat: 0.6 },
];

/**
 * The best settlement in days found within the budget: a plan put together cheaply, Lagrangian prices
 * that aim at it, plans made of the prices, then search, first by classes of kilns where there are
 * many, then kiln by kiln on the starts that the prices say a better plan can use.
 */
export function settleDays(problem: DayProblem, seed: number, budget: Budget, hooks: DayHooks): DaySettlement {
  const random = seededRandom(seed);
  const tables = dayTables(problem);
  const isMany = tables.jobs > MANY;
  const best = new Best(hooks);
  const every = candidatesOf(tables, new Float64Array((tables.classes + 1) * tables.span), isMany ? CHOICES : Infinity);
  const first = putTogether(tables, every);
  best.take(settlementOf(dealOut(first)));
  if (!isMany) {
    climbFrom(tables, best.plan, byIterations(FIRST_STEPS), hooks);
    best.take(searchDays(planOf(tables, best.plan), random, budget.part(0.05), best.take, hooks.bound));
  }
  const { prices } = climbDays(tables, best.plan, budget, isMany ? 0.3 : 0.12, hooks);
  if (best.isProven() || budget.isSpent()) return best.plan;
  const made = plansOfPrices(tables, prices, budget, AIMS);
  for (const plan of made) best.take(settlementOf(dealOut(plan)));
  if (isMany && made.length > 0 && !budget.isSpent()) best.take(searchMany(made.reduce((a, b) => (b.cost < a.cost ? b : a)), prices, random, budget));
  for (const { share, slack, heat } of ROUNDS) {
    if (best.isProven() || budget.isSpent()) break;
    const gap = Math.max(1, best.plan.cost - hooks.bound());
    const narrow = best.plan.leftOut > 0 ? tables : withinCeiling(tables, prices, best.plan.cost + slack * gap).tables;
    best.take(searchDays(planOf(narrow, best.plan), random, budget.part(share), best.take, hooks.bound, isMany ? heat / 20 : heat));
  }
  return best.plan;
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

/** The best of a few plans put together run by run: heaviest first, those that stand first, soonest due, or as they stand. */
function putTogether(tables: DayTables, every: Candidates): ClassPlan {
  const { jobs } = tables.problem;
  const all = jobs.map((_, job) => job);
  const orders = [
    all.toSorted((a, b) => jobs[b]!.weight - jobs[a]!.weight || jobs[a]!.due - jobs[b]!.due),
    all.toSorted((a, b) => firmness(jobs[b]!) - firmness(jobs[a]!) || jobs[b]!.weight - jobs[a]!.weight),
    all.toSorted((a, b) => jobs[a]!.due - jobs[b]!.due),
    all.toSorted((a, b) => (jobs[a]!.standing?.start ?? jobs[a]!.earliest) - (jobs[b]!.standing?.start ?? jobs[b]!.earliest)),
  ];
  const plans = orders.map((order) => {
    const plan = new ClassPlan(tables);
    insertCheapest(plan, every, order, null);
    return plan;
  });
  const best = plans.reduce((one, plan) => (plan.cost < one.cost ? plan : one));
  insertMissing(best, new Float64Array((tables.classes + 1) * tables.span));
  return best;
}

/** Puts in what is left out wherever it fits at all, cheapest first by the given prices. */
function insertMissing(plan: ClassPlan, prices: Float64Array): void {
  const missing = new Set(leftOutOf(plan));
  if (missing.size > 0) insertCheapest(plan, candidatesOf(plan.tables, prices, Infinity, missing), [...missing], null);
}

function firmness({ standing }: DayJob): number {
  return standing === null ? -1 : standing.fix + (standing.moved ?? 0);
}

/** Plans made by diving from the prices, whole where anything still fits anywhere. */
function plansOfPrices(tables: DayTables, prices: Float64Array, budget: Budget, aims: readonly number[]): ClassPlan[] {
  const promising = candidatesOf(tables, prices, CHOICES);
  return aims.flatMap((aim) => {
    if (budget.isSpent()) return [];
    const plan = dive(tables, promising, prices, budget.steps(tables.jobs, 0.3 / aims.length), aim);
    insertMissing(plan, prices);
    return [plan];
  });
}

function leftOutOf({ choice }: ClassPlan): number[] {
  return [...choice.keys()].filter((job) => choice[job] === -1);
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
