import type { DayPlacement, DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { HourPlacement, HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/** What is to be settled, as it is handed to another thread. */
export type SettleTask =
  | { readonly kind: "hours"; readonly problem: HourProblem; readonly seed: number; readonly iterations: number | null }
  | DaysTask;

export type DaysTask = {
  readonly kind: "days";
  readonly problem: DayProblem;
  readonly seed: number;
  readonly iterations: number | null;
  /** Where the problem asks for more than what it stands for: another one that asks for no more, of which the bound is. */
  readonly least?: DayProblem | undefined;
};

/** A plan with its cost; `leftOut` runs found no place on the calendar. */
export type HoursPlan = { readonly kind: "hours"; readonly placements: readonly HourPlacement[]; readonly cost: number; readonly leftOut: 0 };
export type DaysPlan = { readonly kind: "days"; readonly placements: readonly DayPlacement[]; readonly cost: number; readonly leftOut: number; readonly isCutShort?: boolean };
export type SettledPlan = HoursPlan | DaysPlan;

/** One thread looks for plans, the other for a bound: on two cores neither waits for the other. */
export type Role = "search" | "prove";

/** Handed over when a thread starts. Instants are milliseconds since 1970. */
export type WorkerOrder = {
  readonly task: SettleTask;
  readonly role: Role;
  readonly endsAtMs: number;
  /** A search that ends here and goes on as a proof, in one thread; null when it searches to the end. */
  readonly proofFromMs?: number | null;
  readonly shared: SharedArrayBuffer;
};

export type WorkerReport = { readonly plan: SettledPlan } | { readonly done: true };

/** Beyond so many runs the solver's model does not fit into its memory in useful time. */
const MOST_RUNS_TO_PROVE = 120;
/** A second thread takes a while to start. */
const LEAST_MS_BESIDE = 2_500;

/** In less time than that, the search gets this share of it and the proof, in its thread, the rest. */
const SEARCH_SHARE = 0.4;

/** True when a proof in a thread of its own can say more than the search does by itself. */
export function isWorthProving(task: SettleTask, leftMs: number): boolean {
  return isProvable(task) && leftMs >= LEAST_MS_BESIDE;
}

/** True when there is time for a second search, and no plan that is to repeat. */
export function isWorthSearchingTwice(task: SettleTask, leftMs: number): boolean {
  return task.kind === "hours" && task.iterations === null && leftMs >= LEAST_MS_BESIDE;
}

/** When the search of a short settlement gives way to a proof; null when it does not. */
export function proofFrom(task: SettleTask, nowMs: number, endsAtMs: number): number | null {
  return isProvable(task) && !isWorthProving(task, endsAtMs - nowMs) ? nowMs + SEARCH_SHARE * (endsAtMs - nowMs) : null;
}

function isProvable(task: SettleTask): boolean {
  return task.kind === "days" && task.iterations === null && task.problem.jobs.length <= MOST_RUNS_TO_PROVE;
}
