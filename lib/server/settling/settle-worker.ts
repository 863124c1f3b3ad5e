import { parentPort } from "node:worker_threads";
import { proveDays } from "@/lib/server/settling/prove-days";
import { search } from "@/lib/server/settling/search";
import type { SettledPlan, WorkerOrder, WorkerReport } from "@/lib/server/settling/settle-task";
import { SharedFigures } from "@/lib/server/settling/shared-figures";

/** At most so often a plan is handed over; the last one always is. */
const REPORT_EVERY_MS = 50;

const report = (message: WorkerReport): void => parentPort?.postMessage(message);

/** The program of one thread: searches or proves what it is ordered to, reports, and takes the next order. */
parentPort?.on("message", (order: WorkerOrder) => void carryOut(order));

async function carryOut({ task, role, endsAtMs, proofFromMs = null, shared: buffer }: WorkerOrder): Promise<void> {
  const shared = new SharedFigures(buffer);
  let toldAt = -Infinity;
  const tell = (plan: SettledPlan): void => {
    if (performance.now() - toldAt < REPORT_EVERY_MS) return;
    toldAt = performance.now();
    report({ plan });
  };
  if (role === "search") report({ plan: search(task, proofFromMs ?? endsAtMs, shared, tell) });
  const proves = role === "prove" || (proofFromMs !== null && !shared.isStopped);
  if (proves && task.kind === "days") await proveDays(task, endsAtMs, shared, (plan) => report({ plan }), { isBesideSearch: role === "prove" });
  report({ done: true });
}
