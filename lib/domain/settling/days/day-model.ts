import { dayRoom } from "@/lib/domain/settling/days/day-lagrangian";
import { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { kilowattsOf, powerRows } from "@/lib/domain/settling/days/day-model-power";
import { steamerColumns, steamerRows } from "@/lib/domain/settling/days/day-model-steamers";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import { ModelBuilder, type LinearModel } from "@/lib/domain/settling/days/model-builder";

/**
 * The choices of all runs as a linear model for a general solver: a column for each job, class and
 * start that is left in the tables; a row for each job (exactly one choice), for each class and day
 * (kilns there are), for each day (loads and unloads there are) and for each day on which kilns that
 * heat could draw too much. Steamers are a flow beside it. A solution is a plan, and its optimum is
 * the least cost among the starts that are left.
 */
export type DayModel = LinearModel & {
  /** By choice: the job, and its choice as class × span + start. */
  readonly jobOf: Int32Array;
  readonly choiceOf: Int32Array;
};

/** The model, or nothing when it would have more than `most` choices. */
export function dayModel(tables: DayTables, most: number): DayModel | undefined {
  const { jobs, classes, span, rowOf, first, last, end, cost, heats, problem, dayOf } = tables;
  const builder = new ModelBuilder();
  const room = dayRoom(tables);
  for (let job = 0; job < jobs; job++) builder.row(1, 1);
  room.forEach((amount) => builder.row(-Infinity, amount));
  const steamRow = problem.jobs.some((job) => job.steams) ? steamerRows(builder, tables) : -1;
  const powerRow = powerRows(builder, tables);
  const jobOf: number[] = [];
  const choiceOf: number[] = [];
  for (let job = 0; job < jobs; job++) {
    const { steams } = problem.jobs[job]!;
    for (let cls = 0; cls < classes; cls++) {
      const at = job * classes + cls;
      if (rowOf[at]! < 0) continue;
      for (let s = first[at]!; s <= last[at]!; s++) {
        const e = end[rowOf[at]! + s]!;
        if (e < 0) continue;
        if (jobOf.length === most) return undefined;
        jobOf.push(job);
        choiceOf.push(cls * span + s);
        builder.entry(job);
        for (let i = s; i < e; i++) builder.entry(jobs + cls * span + i);
        builder.entry(jobs + classes * span + s);
        builder.entry(jobs + classes * span + e);
        if (steams) builder.entry(steamRow + s);
        for (let day = dayOf[s]!; day < dayOf[s]! + heats[rowOf[at]! + s]!; day++) if ((powerRow[day] ?? -1) >= 0) builder.entry(powerRow[day]!, kilowattsOf(tables, cls));
        builder.endChoice(cost[rowOf[at]! + s]!);
      }
    }
  }
  if (steamRow >= 0) steamerColumns(builder, tables, steamRow);
  return { ...builder.build(), jobOf: Int32Array.from(jobOf), choiceOf: Int32Array.from(choiceOf) };
}

/** The plan a solution of the model means; undefined where rounding in the solver made it none. */
export function planOfSolution(tables: DayTables, { jobOf, choiceOf }: DayModel, values: ArrayLike<number>): ClassPlan | undefined {
  const plan = new ClassPlan(tables);
  for (let column = 0; column < jobOf.length; column++) {
    if (!((values[column] ?? 0) > 0.5)) continue;
    if (!plan.fits(jobOf[column]!, choiceOf[column]!)) return undefined;
    plan.put(jobOf[column]!, choiceOf[column]!);
  }
  return plan;
}
