import { candidatesOf, type Candidates } from "@/lib/domain/settling/days/class-candidates";
import { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { insertCheapest } from "@/lib/domain/settling/days/class-search";
import type { DayJob } from "@/lib/domain/settling/days/day-problem";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";

/** The best of a few plans put together run by run: heaviest first, those that stand first, soonest due, or as they stand. What is left when `isOver` stays out. */
export function putTogether(tables: DayTables, every: Candidates, isOver: () => boolean): ClassPlan {
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
    insertCheapest(plan, every, order, null, isOver);
    return plan;
  });
  const best = plans.reduce((one, plan) => (plan.cost < one.cost ? plan : one));
  insertMissing(best, new Float64Array((tables.classes + 1) * tables.span), isOver);
  return best;
}

/** Puts in what is left out wherever it fits at all, cheapest first by the given prices, until `isOver`. */
export function insertMissing(plan: ClassPlan, prices: Float64Array, isOver: () => boolean): void {
  const missing = new Set(leftOutOf(plan));
  if (missing.size > 0) insertCheapest(plan, candidatesOf(plan.tables, prices, Infinity, missing, isOver), [...missing], null, isOver);
}

function firmness({ standing }: DayJob): number {
  return standing === null ? -1 : standing.fix + (standing.moved ?? 0);
}

function leftOutOf({ choice }: ClassPlan): number[] {
  return [...choice.keys()].filter((job) => choice[job] === -1);
}
