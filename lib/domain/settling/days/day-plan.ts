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
  /** By kiln and index: those of its own runs. */
  readonly opsOf: Uint8Array;
  readonly loadsAt: Int16Array;
  /** By calendar day. */
  readonly powerUsed: Float64Array;
  readonly kilnCost: Float64Array;
  leftOut: number;
  /** Loads and unloads beyond what their days allow; 0 in a plan that stands. */
  over: number;
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
    opsOf: new Uint8Array(tables.kilns * tables.span),
    loadsAt: new Int16Array(tables.span),
    powerUsed: new Float64Array(tables.problem.horizon + 1),
    kilnCost: new Float64Array(tables.kilns),
    leftOut: tables.jobs,
    over: 0,
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
  const { tables, loadsAt, powerUsed } = plan;
  plan.version++;
  useOp(plan, kiln, start, by);
  useOp(plan, kiln, end, by);
  if (tables.problem.jobs[job]!.steams) loadsAt[start]! += by;
  if (tables.problem.powerLeftKw === null) return;
  const day = tables.dayOf[start]!;
  const heats = tables.heats[tables.rowOf[job * tables.classes + tables.classOf[kiln]!]! + start]!;
  for (let i = 0; i < heats; i++) powerUsed[day + i]! += by * tables.problem.powerKw[kiln]!;
}

function useOp(plan: DayPlan, kiln: number, at: number, by: 1 | -1): void {
  const { tables, opsUsed, opsOf } = plan;
  opsOf[kiln * tables.span + at]! += by;
  const most = tables.ops[at]!;
  const before = opsUsed[at]!;
  opsUsed[at] = before + by;
  if (by === 1 ? before >= most : before > most) plan.over += by;
}

/** Loads and unloads of a kiln's own runs that would not be beyond what their days allow without them. */
export function ownOver({ tables, opsUsed, opsOf, orders, start, end }: DayPlan, kiln: number): number {
  const at = kiln * tables.span;
  let over = 0;
  let unloaded = -1;
  const beyond = (day: number): number => Math.min(opsOf[at + day]!, Math.max(0, opsUsed[day]! - tables.ops[day]!));
  for (const job of orders[kiln]!) {
    // Loaded on the day of the unload before it, which has been counted with both.
    if (start[job] !== unloaded) over += beyond(start[job]!);
    over += beyond(end[job]!);
    unloaded = end[job]!;
  }
  return over;
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

/** Gives a kiln another order with its starts; runs of it that are on no kiln, or on this one. */
export function setOrder(plan: DayPlan, kiln: number, jobs: readonly number[], starts: readonly number[]): void {
  dropOthers(plan, kiln, jobs, starts);
  putOrder(plan, kiln, jobs, starts);
}

/** Takes out of a kiln what is not part of an order with its starts; what stays uses its days as before. */
export function dropOthers(plan: DayPlan, kiln: number, jobs: readonly number[], starts: readonly number[]): void {
  for (const job of plan.orders[kiln]!) {
    const at = jobs.indexOf(job);
    if (at >= 0 && starts[at] === plan.start[job]) continue;
    useDays(plan, job, kiln, plan.start[job]!, plan.end[job]!, -1);
    plan.kilnOf[job] = -1;
    plan.leftOut++;
  }
}

/** Puts an order into a kiln in which nothing else is. */
export function putOrder(plan: DayPlan, kiln: number, jobs: readonly number[], starts: readonly number[]): void {
  const { tables } = plan;
  let cost = 0;
  jobs.forEach((job, i) => {
    const row = tables.rowOf[job * tables.classes + tables.classOf[kiln]!]!;
    const start = starts[i]!;
    cost += tables.cost[row + start]!;
    if (plan.kilnOf[job] === kiln) return;
    plan.kilnOf[job] = kiln;
    plan.start[job] = start;
    plan.end[job] = tables.end[row + start]!;
    useDays(plan, job, kiln, start, plan.end[job]!, 1);
    plan.leftOut--;
  });
  plan.orders[kiln] = [...jobs];
  plan.kilnCost[kiln] = cost;
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
