import { dayRoom } from "@/lib/domain/settling/days/day-lagrangian";
import { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";

/**
 * The choices of all runs as a linear model for a general solver: a column for each job, class and
 * start that is left in the tables; a row for each job (exactly one choice), for each class and day
 * (kilns there are) and for each day (loads and unloads there are). Columns are stored one after
 * another, with the rows they stand in and a 1 in each. Steamers and power are left out, so its
 * optimum is a bound, and a plan read from it must be checked.
 */
export type DayModel = {
  readonly columns: number;
  readonly rows: number;
  readonly cost: Float64Array;
  /** By row: at most so much; at least as much too for the first `jobs` rows. */
  readonly atMost: Float64Array;
  readonly jobs: number;
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  /** By column: the job, and its choice as class × span + start. */
  readonly jobOf: Int32Array;
  readonly choiceOf: Int32Array;
};

/** The model, or nothing when it would have more than `most` columns. */
export function dayModel(tables: DayTables, most: number): DayModel | undefined {
  const { jobs, classes, span, rowOf, first, last, end, cost } = tables;
  const jobOf: number[] = [];
  const choiceOf: number[] = [];
  const costs: number[] = [];
  const starts = [0];
  const indices: number[] = [];
  for (let job = 0; job < jobs; job++) {
    for (let cls = 0; cls < classes; cls++) {
      const row = rowOf[job * classes + cls]!;
      if (row < 0) continue;
      for (let s = first[job * classes + cls]!; s <= last[job * classes + cls]!; s++) {
        const e = end[row + s]!;
        if (e < 0) continue;
        if (jobOf.length === most) return undefined;
        jobOf.push(job);
        choiceOf.push(cls * span + s);
        costs.push(cost[row + s]!);
        indices.push(job);
        for (let i = s; i < e; i++) indices.push(jobs + cls * span + i);
        indices.push(jobs + classes * span + s, jobs + classes * span + e);
        starts.push(indices.length);
      }
    }
  }
  const room = dayRoom(tables);
  return {
    columns: jobOf.length,
    rows: jobs + room.length,
    cost: Float64Array.from(costs),
    atMost: Float64Array.from({ length: jobs + room.length }, (_, row) => (row < jobs ? 1 : room[row - jobs]!)),
    jobs,
    starts: Int32Array.from(starts),
    indices: Int32Array.from(indices),
    jobOf: Int32Array.from(jobOf),
    choiceOf: Int32Array.from(choiceOf),
  };
}

/** The plan a solution of the model means; undefined where steamers or power do not allow it. */
export function planOfSolution(tables: DayTables, { jobOf, choiceOf }: DayModel, values: ArrayLike<number>): ClassPlan | undefined {
  const plan = new ClassPlan(tables);
  for (let column = 0; column < jobOf.length; column++) {
    if (!((values[column] ?? 0) > 0.5)) continue;
    if (!plan.fits(jobOf[column]!, choiceOf[column]!)) return undefined;
    plan.put(jobOf[column]!, choiceOf[column]!);
  }
  return plan;
}
