import type { Worker } from "node:worker_threads";
import { startWorker } from "@/lib/server/settling/start-worker";
import type { WorkerOrder, WorkerReport } from "@/lib/server/settling/settle-task";

/** A thread of a settlement at work. */
export type Working = { readonly end: () => void };
export type Heard = { readonly onReport: (report: WorkerReport) => void; readonly onError: (error: Error) => void };

/** Threads that have read their program and wait for an order: reading it takes half a second of computing. */
const waiting: Worker[] = [];
const MOST_WAITING = 4;
/** A thread nobody has needed for so long ends, and gives its memory back. */
const WAITS_MS = 5 * 60_000;

/** A thread that was told to stop and has not within so long is ended: a solver looks up too seldom. */
const GRACE_MS = 2_000;

/** Gives an order to a thread that waits, or to a new one, which waits again afterwards. After `end` nothing more is heard of it. */
export function giveOrder(order: WorkerOrder, { onReport, onError }: Heard): Working {
  const worker = waiting.pop() ?? startWorker();
  worker.removeAllListeners();
  worker.ref();
  let isDone = false;
  let isHeard = true;
  worker.on("error", (error: Error) => {
    isDone = true;
    if (isHeard) onError(error);
  });
  worker.on("message", (report: WorkerReport) => {
    if ("done" in report) {
      isDone = true;
      letWait(worker);
    }
    if (isHeard) onReport(report);
  });
  worker.postMessage(order);
  return {
    end: () => {
      isHeard = false;
      if (isDone) return;
      worker.unref();
      setTimeout(() => {
        if (!isDone) void worker.terminate();
      }, GRACE_MS).unref();
    },
  };
}

/** Starts threads before they are needed, up to so many that wait: for who has just seen that there is something to settle. */
export function warmThreads(count: number): void {
  while (waiting.length < Math.min(count, MOST_WAITING)) letWait(startWorker());
}

function letWait(worker: Worker): void {
  worker.removeAllListeners();
  worker.unref();
  if (waiting.length >= MOST_WAITING) {
    void worker.terminate();
    return;
  }
  waiting.push(worker);
  const leave = (): void => {
    const at = waiting.indexOf(worker);
    if (at >= 0) waiting.splice(at, 1);
  };
  // What happens to a thread that waits concerns nobody: another one is started.
  worker.on("error", leave);
  worker.on("exit", leave);
  const tired = setTimeout(() => {
    if (!waiting.includes(worker)) return;
    leave();
    void worker.terminate();
  }, WAITS_MS);
  tired.unref();
}
