import type { Tx } from "@/lib/server/db";

/** A computation that has said nothing for so long is broken off: its process was killed, or hangs. Seconds. */
export const STALE_AFTER = 20;
/** One that nobody has taken up for so long may be asked for anew: the jobs are not being done, or others come first. Seconds. */
export const LATE_AFTER = 60;

/** Seconds by the database's own clock since a re-plan was asked for, was begun, and last said how far it is. */
export type ReplanAges = { readonly asked: number; readonly begun: number | null; readonly said: number | null };

export async function replanAges(tx: Tx, replanId: string): Promise<ReplanAges> {
  const rows = await tx.$queryRaw<ReplanAges[]>`
    SELECT extract(epoch FROM clock_timestamp() - asked_at)::float8 AS asked, extract(epoch FROM coalesce(ended_at, clock_timestamp()) - started_at)::float8 AS begun,
           extract(epoch FROM clock_timestamp() - beat_at)::float8 AS said
      FROM replan WHERE replan_id = ${replanId}::uuid`;
  return rows[0] ?? { asked: 0, begun: null, said: null };
}

/** Whether it is given up as broken off, or as never begun. */
export function isStale(state: string, { asked, said }: ReplanAges): boolean {
  if (state === "waiting") return asked > LATE_AFTER;
  return (state === "searching" || state === "placing") && (said === null || said > STALE_AFTER);
}
