import { SAME } from "@/lib/server/settling/search";
import { provenBound, type Settled } from "@/lib/server/settling/settle-here";
import { isWorthProving, proofFrom, type Role, type SettledPlan, type SettleTask, type WorkerReport } from "@/lib/server/settling/settle-task";
import { SharedFigures } from "@/lib/server/settling/shared-figures";
import { giveOrder, type Working } from "@/lib/server/settling/threads";

/** How good the best plan so far is: its cost, and a cost no plan can go below. */
export type Progress = { readonly cost: number; readonly bound: number };

export type RunningSettlement = {
  /** The best plan when the budget is spent, the work done, or after `stop()`; rejects when the search fails. */
  readonly result: Promise<Settled>;
  /** Ends with the best so far, within a tenth of a second once there is one. */
  readonly stop: () => void;
};

/** Threads end this much before the budget does, to hand over what they have. */
const HAND_OVER_MS = 60;
const PROGRESS_MS = 200;
/** From being told to stop to being stopped without more ado. */
const STOPS_MS = 100;

/** Settles in threads of its own, so that the thread that asks stays free. The budget counts from now. */
export function settleInWorker(task: SettleTask, budgetSeconds: number, onProgress: (progress: Progress, plan: SettledPlan) => void = () => undefined): RunningSettlement {
  const shared = SharedFigures.create(task.kind === "days" ? task.problem.jobs.length : 0);
  const endsAtMs = Date.now() + budgetSeconds * 1000 - HAND_OVER_MS;
  const proofFromMs = proofFrom(task, Date.now(), endsAtMs);
  const running = new Map<Role, Working>();
  let best: SettledPlan | undefined;
  let isLate = false;
  let ticking: NodeJS.Timeout | undefined;
  let late: NodeJS.Timeout | undefined;
  let giveUp = (): void => undefined;
  const result = new Promise<Settled>((resolve, reject) => {
    const close = (): void => {
      clearInterval(ticking);
      clearTimeout(late);
      shared.stop();
      for (const working of running.values()) working.end();
    };
    const end = (): void => {
      close();
      if (best === undefined) reject(new Error("The settlement ended without a plan."));
      else resolve({ plan: best, bound: provenBound(best, shared.bound) });
    };
    const take = (role: Role, report: WorkerReport): void => {
      if ("plan" in report && (best === undefined || report.plan.cost < best.cost)) best = report.plan;
      if ("done" in report) running.delete(role);
      // A proof alone is not waited for: the search runs as long as the budget does. But a better plan it has told of is on its way.
      if (running.has("search") && !(isLate && best !== undefined)) return;
      if (running.has("prove") && (best?.cost ?? Infinity) > shared.cost + SAME) setTimeout(end, HAND_OVER_MS / 2);
      else end();
    };
    const roles: readonly Role[] = isWorthProving(task, endsAtMs - Date.now()) ? ["search", "prove"] : ["search"];
    for (const role of roles) {
      const working = giveOrder({ task, role, endsAtMs, proofFromMs, shared: shared.buffer }, {
        onReport: (report) => take(role, report),
        onError: (error) => {
          running.delete(role);
          if (role === "prove") return;
          close();
          reject(error);
        },
      });
      running.set(role, working);
    }
    // A solver may look at the clock too late; whoever has a plan does not wait for it.
    giveUp = (): void => {
      isLate = true;
      if (best !== undefined) end();
    };
    late = setTimeout(giveUp, endsAtMs + HAND_OVER_MS - Date.now());
    ticking = setInterval(() => {
      if (best !== undefined) onProgress({ cost: best.cost, bound: provenBound(best, shared.bound) }, best);
    }, PROGRESS_MS);
  });
  const stop = (): void => {
    shared.stop();
    clearTimeout(late);
    late = setTimeout(giveUp, STOPS_MS);
  };
  return { result, stop };
}
