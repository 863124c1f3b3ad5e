import { Logger, run, type Runner, type TaskList } from "graphile-worker";
import pg from "pg";
import { freeTheDead, livingWorkers } from "@/lib/server/jobs/living-workers";
import { JOBS_SCHEMA } from "@/lib/server/jobs/schema";
import { AT_SET_TIMES, CRONTAB, TASKS } from "@/lib/server/jobs/tasks";
import { log } from "@/lib/server/log";

const AT_ONCE = 2;
const LOOK_FOR_DEAD_MS = 5_000;

export type Working = {
  /** Resolves when the work has ended, asked or not; rejects when it cannot go on. */
  readonly ended: Promise<void>;
  /** Ends what is being done, and takes nothing new. */
  stop(): Promise<void>;
};

/**
 * Does the jobs of the database until stopped. Several processes may do so at once: each job goes to one of them.
 * @param ownerUrl the owner's address: the jobs are the owner's, what they do is done as the application's role
 * @param only the names of the jobs to do, where others do the rest; all when there are none
 * @throws when one of the names is no job's
 */
export async function work(ownerUrl: string, only: readonly string[] = []): Promise<Working> {
  const taskList = tasksNamed(only);
  // What is done at set times is done where all is done.
  const setTimes = only.length === 0 ? AT_SET_TIMES : [];
  const pool = new pg.Pool({ connectionString: ownerUrl, max: AT_ONCE + 2 });
  pool.on("error", (error) => log.warn({ err: error }, "jobs: a connection broke"));
  let lost: (error: Error) => void = () => undefined;
  const connectionLost = new Promise<never>((_, fail) => (lost = fail));
  const living = await livingWorkers(ownerUrl, (error) => lost(error));
  await freeTheDead(pool);
  const runner = await run({
    pgPool: pool, schema: JOBS_SCHEMA, taskList, crontab: only.length === 0 ? CRONTAB : "", concurrency: AT_ONCE, noHandleSignals: true, logger: quietLogger(),
    // Before a worker takes its first job, so that none is thought dead that is not.
    preset: { plugins: [{ name: "living-workers", version: "1.0.0", worker: { hooks: { startWorker: (_, { worker }) => living.lives(worker.workerId) } } }] },
  });
  for (const jobKey of setTimes) await runner.addJob(jobKey, {}, { jobKey });
  const looking = setInterval(() => void freeTheDead(pool).catch((error: unknown) => log.warn({ err: error }, "jobs: looking for dead workers")), LOOK_FOR_DEAD_MS);
  return { ended: Promise.race([runner.promise, connectionLost]), stop: () => stop(runner, () => clearInterval(looking), living.end, pool) };
}

function tasksNamed(only: readonly string[]): TaskList {
  const unknown = only.find((name) => !(name in TASKS));
  if (unknown !== undefined) throw new Error(`${unknown} is no job; there are ${Object.keys(TASKS).join(", ")}.`);
  return only.length === 0 ? TASKS : Object.fromEntries(Object.entries(TASKS).filter(([name]) => only.includes(name)));
}

async function stop(runner: Runner, noMoreLooking: () => void, noLongerAlive: () => Promise<void>, pool: pg.Pool): Promise<void> {
  noMoreLooking();
  await runner.stop();
  await noLongerAlive();
  await pool.end();
}

/** A job that fails is tried again later, so it is a warning; what is given up says so itself. */
function quietLogger(): Logger {
  return new Logger(() => (level, message) => {
    if (level === "error" || level === "warning") log.warn(`jobs: ${message}`);
  });
}
