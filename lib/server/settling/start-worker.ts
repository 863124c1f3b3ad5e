import path from "node:path";
import { Worker } from "node:worker_threads";

/** Run from its source beside a built server too; a bundler would take the whole of tsx along. */
const PROGRAM = [process.cwd(), "lib", "server", "settling", "worker-entry.mjs"].join(path.sep);

/** Starts a thread that takes orders of settlements. It needs neither the options of its parent nor its environment, secrets least of all. */
export function startWorker(): Worker {
  return new Worker(/* turbopackIgnore: true */ PROGRAM, { execArgv: [], env: {} });
}
