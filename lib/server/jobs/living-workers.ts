import pg from "pg";
import { JOBS_SCHEMA } from "@/lib/server/jobs/schema";

/** Any number will do, as long as every Lehrbook uses the same one. */
const WORKERS = 7_236_113;

/**
 * Says of every worker in this process that it lives: it holds a lock that goes with the connection, and so with the
 * process, however that ends. The queue itself would wait four hours before it gave a dead worker's job to another.
 */
export async function livingWorkers(ownerUrl: string, onLost: (error: Error) => void) {
  const held = new pg.Client({ connectionString: ownerUrl });
  held.on("error", onLost);
  await held.connect();
  return {
    lives: async (workerId: string): Promise<void> => {
      await held.query("SELECT pg_advisory_lock($1, hashtext($2))", [WORKERS, workerId]);
    },
    end: () => held.end(),
  };
}

/** Gives the jobs of workers that do not live any more to whoever asks next. */
export async function freeTheDead(pool: pg.Pool): Promise<void> {
  await pool.query(
    `WITH busy AS MATERIALIZED (SELECT DISTINCT locked_by FROM ${JOBS_SCHEMA}._private_jobs WHERE locked_by IS NOT NULL),
          dead AS MATERIALIZED (SELECT locked_by FROM busy WHERE pg_try_advisory_xact_lock($1, hashtext(locked_by)))
     SELECT ${JOBS_SCHEMA}.force_unlock_workers(array_agg(locked_by)) FROM dead`,
    [WORKERS],
  );
}
