import { SAME, search } from "@/lib/server/settling/search";
import { isWorthProving, isWorthSearchingTwice, type Role, type SettledPlan, type SettleTask } from "@/lib/server/settling/settle-task";
import { SharedFigures } from "@/lib/server/settling/shared-figures";
import { giveOrder } from "@/lib/server/settling/threads";

export type Settled = { readonly plan: SettledPlan; readonly bound: number };

/** The bound of a plan: never above its cost, and its cost itself once it is proven the least. */
export function provenBound({ cost, leftOut }: SettledPlan, bound: number): number {
  if (leftOut > 0) return 0;
  return bound >= cost - SAME ? cost : bound;
}

/** Kept back from the budget to end the proof and write the answer. */
const HAND_OVER_MS = 60;

/**
 * Settles in this thread, which is busy until the budget is spent, with another one beside it where that can help. For
 * programs that have nothing else to do: no second thread has to start first. `startedAtMs` is from when the budget
 * counts, milliseconds since 1970.
 */
export async function settleHere(task: SettleTask, budgetSeconds: number, startedAtMs: number): Promise<Settled> {
  const shared = SharedFigures.create(task.kind === "days" ? task.problem.jobs.length : 0);
  const endsAtMs = startedAtMs + budgetSeconds * 1000 - HAND_OVER_MS;
  const told: SettledPlan[] = [];
  const beside = besideOf(task, endsAtMs - Date.now());
  const helper = beside && giveOrder({ ...beside, endsAtMs, shared: shared.buffer }, {
    onReport: (report) => {
      if ("plan" in report) told.push(report.plan);
    },
    // One that fails leaves the plan and the weaker bound of this thread, which is proven too.
    onError: () => undefined,
  });
  const found = search(task, endsAtMs, shared, () => undefined);
  const best = (): SettledPlan => told.reduce((least, one) => (one.cost < least.cost ? one : least), found);
  // What the other thread has sent meanwhile arrives in the next turns.
  do await new Promise((resolve) => setImmediate(resolve));
  while (best().cost > shared.cost + SAME && Date.now() < endsAtMs + HAND_OVER_MS / 2);
  shared.stop();
  helper?.end();
  const plan = best();
  return { plan, bound: provenBound(plan, shared.bound) };
}

/** What a second thread does meanwhile: it proves in days, and in hours searches from another seed, for two find the better of two. */
function besideOf(task: SettleTask, leftMs: number): { readonly task: SettleTask; readonly role: Role } | undefined {
  if (isWorthProving(task, leftMs)) return { task, role: "prove" };
  return isWorthSearchingTwice(task, leftMs) ? { task: { ...task, seed: task.seed + 1 }, role: "search" } : undefined;
}
