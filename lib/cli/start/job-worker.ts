import { type ChildProcess, spawn } from "node:child_process";
import path from "node:path";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";

export type JobWorkerOptions = {
  readonly root: string;
  /** With the owner's address of the database: the jobs are the owner's. */
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly onLine: (line: string) => void;
  /** The names of the jobs to do; all when left out. */
  readonly only?: readonly string[];
};

const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 60_000;
/** One that has run for so long was well; the next wait is short again. */
const WELL_MS = 60_000;

/**
 * Does the jobs in a process of its own, so that mail never holds up a request, and starts another when it ends by
 * itself: after a second, then after longer and longer waits. Pages are served meanwhile, and the jobs keep.
 * @returns the way to stop it, once what it does is done
 */
export function keepJobsDone(options: JobWorkerOptions): () => Promise<void> {
  const { onLine } = options;
  let stopping = false;
  let wait: number | undefined;
  let child: ChildProcess | undefined;
  let waking: NodeJS.Timeout | undefined;
  const start = () => {
    const startedAt = Date.now();
    const started = launch(options);
    child = started;
    started.once("exit", () => {
      child = undefined;
      if (stopping) return;
      wait = nextWait(wait, Date.now() - startedAt);
      onLine(`What sends the mail ended by itself; it is started again in ${Math.round(wait / 1000)} s.`);
      waking = setTimeout(start, wait);
    });
  };
  start();
  return async () => {
    stopping = true;
    clearTimeout(waking);
    if (child !== undefined) await stop(child);
  };
}

/**
 * How long to wait before another is started, in ms.
 * @param before the wait before the one that ended; undefined for the first
 * @param ranMs how long that one ran
 */
export function nextWait(before: number | undefined, ranMs: number): number {
  return before === undefined || ranMs > WELL_MS ? FIRST_WAIT_MS : Math.min(2 * before, LONGEST_WAIT_MS);
}

function launch({ root, environment, onLine, only = [] }: JobWorkerOptions): ChildProcess {
  const follow = pathToFileURL(path.join(root, "lib", "cli", "start", "follow-parent.mjs")).href;
  const child = spawn(process.execPath, ["--no-deprecation", "--import", follow, "--import", "tsx", path.join("lib", "cli", "work.ts"), ...only], {
    cwd: root, detached: true, stdio: ["ignore", "pipe", "pipe", "ipc"],
    env: { NODE_ENV: "production", ...environment, LEHRBOOK_PARENT: String(process.pid) },
  });
  for (const stream of [child.stdout, child.stderr]) if (stream !== null) createInterface(stream).on("line", onLine);
  return child;
}

/** What is still in hand after this long is begun again by the next start. */
const HARD_STOP_MS = 8_000;

async function stop(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise<void>((done) => child.once("exit", () => done()));
  child.kill("SIGTERM");
  const hard = setTimeout(() => child.kill("SIGKILL"), HARD_STOP_MS);
  await ended;
  clearTimeout(hard);
}
