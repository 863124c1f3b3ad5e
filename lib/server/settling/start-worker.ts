import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { WorkerOrder } from "@/lib/server/settling/settle-task";

/** Threads run the sources as they are; a bundler that packs the web pages never sees them. */
export function startWorker(order: WorkerOrder): Worker {
  return new Worker(join(process.cwd(), "lib", "server", "settling", "worker-entry.mjs"), { workerData: order, execArgv: [] });
}
