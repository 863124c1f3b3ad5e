import { placementCost, type DayPlacement } from "@/lib/domain/settling/days/day-problem";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import { steamerDays } from "@/lib/domain/settling/days/steamers";

/** What leaving a run out costs in the search: more than any lateness, so a plan with all runs is better. */
export const LEFT_OUT = 1e7;

/** Orders on all kilns with the indexes of loading, and what they use of the days. */
export type DayPlan = {
  readonly tables: DayTables;
  readonly orders: number[][];
  /** By job; −1 while it is left out. */
  readonly kilnOf: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly opsUsed: Int16Array;
  readonly loadsAt: Int16Array;
  /** By calendar day. */
  readonly powerUsed: Float64Array;
  readonly kilnCost: Float64Array;
  leftOut: number;
  /** Rises with every change of what days are used. */
  version: number;
};

export function emptyDayPlan(tables: DayTables): DayPlan {
  return {
    tables,
    orders: Array.from({ length: tables.kilns }, () => []),
    kilnOf: new Int32Array(tables.jobs).fill(-1),
    start: new Int32Array(tables.jobs).fill(-1),
    end: new Int32Array(tables.jobs).fill(-1),
    opsUsed: new Int16Array(tables.span),
    loadsAt: new Int16Array(tables.span),
    powerUsed: new Float64Array(tables.problem.horizon + 1),
    kilnCost: new Float64Array(tables.kilns),
    leftOut: tables.jobs,
    version: 0,
  };
}

export function planCost({ kilnCost, leftOut }: DayPlan): number {
  let cost = leftOut * LEFT_OUT;
  for (let kiln = 0; kiln < kilnCost.length; kiln++) cost += kilnCost[kiln]!;
  return cost;
}

/** Enters a job's use of days: +1 when it is placed, −1 when it is taken away. */
export function useDays(plan: DayPlan, job: number, kiln: number, start: number, end: number, by: 1 | -1): void {
  const { tables, opsUsed, loadsAt, powerUsed } = plan;
  plan.version++;
  opsUsed[start]! += by;
  opsUsed[end]! += by;
  if (tables.problem.jobs[job]!.steams) loadsAt[start]! += by;
  if (tables.problem.powerLeftKw === null) return;
  const day = tables.dayOf[start]!;
  const heats = tables.heats[tables.rowOf[job * tables.classes + tables.classOf[kiln]!]! + start]!;
  for (let i = 0; i < heats; i++) powerUsed[day + i]! += by * tables.problem.powerKw[kiln]!;
}

export function jobCost({ tables, start }: DayPlan, job: number, kiln: number): number {
  return tables.cost[tables.rowOf[job * tables.classes + tables.classOf[kiln]!]! + start[job]!]!;
}

/** Takes a job out of its kiln; the others there keep their days. */
export function takeOut(plan: DayPlan, job: number): void {
  const kiln = plan.kilnOf[job]!;
  const order = plan.orders[kiln]!;
  plan.kilnCost[kiln]! -= jobCost(plan, job, kiln);
  useDays(plan, job, kiln, plan.start[job]!, plan.end[job]!, -1);
  order.splice(order.indexOf(job), 1);
  plan.kilnOf[job] = -1;
  plan.leftOut++;
}

/** Gives a kiln another order with its starts; jobs that were there already are moved. */
export function setOrder(plan: DayPlan, kiln: number, jobs: readonly number[], starts: readonly number[]): void {
  clearKiln(plan, kiln);
  const { tables } = plan;
  let cost = 0;
  jobs.forEach((job, i) => {
    const row = tables.rowOf[job * tables.classes + tables.classOf[kiln]!]!;
    const start = starts[i]!;
    plan.kilnOf[job] = kiln;
    plan.start[job] = start;
    plan.end[job] = tables.end[row + start]!;
    cost += tables.cost[row + start]!;
    useDays(plan, job, kiln, start, plan.end[job]!, 1);
  });
  plan.orders[kiln] = [...jobs];
  plan.kilnCost[kiln] = cost;
  plan.leftOut -= jobs.length;
}

export function clearKiln(plan: DayPlan, kiln: number): void {
  for (const job of plan.orders[kiln]!) {
    useDays(plan, job, kiln, plan.start[job]!, plan.end[job]!, -1);
    plan.kilnOf[job] = -1;
  }
  plan.leftOut += plan.orders[kiln]!.length;
  plan.orders[kiln] = [];
  plan.kilnCost[kiln] = 0;
}

/** The plan on the calendar, by job, with the steamer days. Jobs left out are missing. */
export function dayPlacements({ tables, kilnOf, start, end }: Pick<DayPlan, "tables" | "kilnOf" | "start" | "end">): DayPlacement[] {
  const placed = tables.problem.jobs.flatMap((_, job) => (kilnOf[job]! >= 0 ? [job] : []));
  const steam = steamerDays(tables, placed.map((job) => start[job]!), placed.map((job) => tables.problem.jobs[job]!.steams));
  return placed.map((job, i) => ({ job, kiln: kilnOf[job]!, start: tables.dayOf[start[job]!]!, end: tables.dayOf[end[job]!]!, steam: steam[i]! }));
}

export function exactCost({ tables, kilnOf, start, end, leftOut }: DayPlan): number {
  return tables.problem.jobs.reduce((sum, job, i) => {
    if (kilnOf[i]! < 0) return sum;
    return sum + placementCost(tables.problem, job, kilnOf[i]!, tables.dayOf[start[i]!]!, tables.dayOf[end[i]!]!);
  }, leftOut * LEFT_OUT);
}
