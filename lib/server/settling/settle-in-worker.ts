import type { Worker } from "node:worker_threads";
import { provenBound, type Settled } from "@/lib/server/settling/settle-here";
import { isWorthProving, type Role, type SettledPlan, type SettleTask, type WorkerReport } from "@/lib/server/settling/settle-task";
import { SharedFigures } from "@/lib/server/settling/shared-figures";
import { startWorker } from "@/lib/server/settling/start-worker";

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

/** Settles in threads of its own, so that the thread that asks stays free. The budget counts from now. */
export function settleInWorker(task: SettleTask, budgetSeconds: number, onProgress: (progress: Progress, plan: SettledPlan) => void = () => undefined): RunningSettlement {
  const shared = SharedFigures.create();
  const endsAtMs = Date.now() + budgetSeconds * 1000 - HAND_OVER_MS;
  const running = new Map<Role, Worker>();
  let best: SettledPlan | undefined;
  let ticking: NodeJS.Timeout | undefined;
  const result = new Promise<Settled>((resolve, reject) => {
    const end = (): void => {
      clearInterval(ticking);
      shared.stop();
      for (const worker of running.values()) void worker.terminate();
      if (best === undefined) reject(new Error("The settlement ended without a plan."));
      else resolve({ plan: best, bound: provenBound(best, shared.bound) });
    };
    const take = (role: Role, report: WorkerReport): void => {
      if ("plan" in report && (best === undefined || report.plan.cost < best.cost)) best = report.plan;
      if ("done" in report) running.delete(role);
      // A proof alone is not waited for: the search runs as long as the budget does.
      if (!running.has("search")) end();
    };
    const roles: readonly Role[] = isWorthProving(task, endsAtMs - Date.now()) ? ["search", "prove"] : ["search"];
    for (const role of roles) {
      const worker = startWorker({ task, role, endsAtMs, shared: shared.buffer });
      running.set(role, worker);
      worker.on("message", (report: WorkerReport) => take(role, report));
      worker.on("error", (error) => {
        running.delete(role);
        if (role === "search") reject(error);
      });
    }
    ticking = setInterval(() => {
      if (best !== undefined) onProgress({ cost: best.cost, bound: provenBound(best, shared.bound) }, best);
    }, PROGRESS_MS);
  });
  return { result, stop: () => shared.stop() };
}
