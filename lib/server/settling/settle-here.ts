import { SAME, search } from "@/lib/server/settling/search";
import { isWorthProving, type SettledPlan, type SettleTask } from "@/lib/server/settling/settle-task";
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
 * Settles in this thread, which is busy until the budget is spent, with a proof in another one where
 * that can help. For programs that have nothing else to do: no second thread has to start first.
 * `startedAtMs` is from when the budget counts, milliseconds since 1970.
 */
export async function settleHere(task: SettleTask, budgetSeconds: number, startedAtMs: number): Promise<Settled> {
  const shared = SharedFigures.create();
  const endsAtMs = startedAtMs + budgetSeconds * 1000 - HAND_OVER_MS;
  const proven: SettledPlan[] = [];
  const prover = isWorthProving(task, endsAtMs - Date.now())
    ? giveOrder({ task, role: "prove", endsAtMs, shared: shared.buffer }, {
        onReport: (report) => {
          if ("plan" in report) proven.push(report.plan);
        },
        // A proof that fails leaves the weaker bound of the search, which is proven too.
        onError: () => undefined,
      })
    : undefined;
  const found = search(task, endsAtMs, shared, () => undefined);
  // What the other thread has sent meanwhile arrives in the next turn.
  await new Promise((resolve) => setImmediate(resolve));
  shared.stop();
  prover?.end();
  const plan = proven.reduce((best, one) => (one.cost < best.cost ? one : best), found);
  return { plan, bound: provenBound(plan, shared.bound) };
}
