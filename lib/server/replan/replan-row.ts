import { randomUUID } from "node:crypto";
import type { SeasonPlan } from "@/lib/contracts/replan";
import { rolesOf } from "@/lib/domain/access/roles";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { toPlainDate } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

export type ReplanOrder = { readonly workshopId: string; readonly replanId: string };

/** A re-plan that this process computes, until it is told to stop or another one has taken it. */
export type TakenUp = ReplanOrder & { readonly workerId: string; readonly who: Who; readonly span: SeasonSpan; readonly seconds: number };

/** How far it is. */
export type Reached = { readonly state: "searching" | "placing"; readonly runs: number; readonly moves: number | null; readonly cost: number | null; readonly bound: number | null };

/** Takes a re-plan up, from the beginning if somebody had begun it; undefined when it is over, or its asker may no longer ask. */
export async function takeUp({ workshopId, replanId }: ReplanOrder): Promise<TakenUp | undefined> {
  return inWorkshop(workshopId, async (tx) => {
    const workerId = randomUUID();
    const taken = await tx.$executeRaw`
      UPDATE replan SET state = 'searching', worker_id = ${workerId}::uuid, started_at = clock_timestamp(), beat_at = clock_timestamp(), runs = NULL, moves = NULL, cost = NULL, bound = NULL
       WHERE replan_id = ${replanId}::uuid AND state IN ('waiting','searching','placing')`;
    if (taken === 0) return undefined;
    const row = await tx.replan.findFirstOrThrow({ where: { replanId }, include: { member: { include: { workshop: true } } } });
    const { member } = row;
    const who: Who = { personId: member.personId, memberId: member.memberId, workshopId, workshopName: member.workshop.name, timeZone: member.workshop.timeZone, name: member.name, email: member.email, roles: member.active ? rolesOf(member.roles) : [] };
    return { workshopId, replanId, workerId, who, span: { from: toPlainDate(row.fromDay), to: toPlainDate(row.toDay) }, seconds: row.seconds };
  });
}

/** Says that it is alive and how far it is. Asked to stop, it is to end with what it has; gone: it is another's, or over. */
export async function beat({ workshopId, replanId, workerId }: TakenUp, { state, runs, moves, cost, bound }: Reached): Promise<"go on" | "stop" | "gone"> {
  const rows = await inWorkshop(workshopId, (tx) => tx.$queryRaw<{ readonly stop: boolean }[]>`
    UPDATE replan SET state = ${state}, beat_at = clock_timestamp(), runs = ${runs}::int, moves = ${moves}::int, cost = ${cost}::float8, bound = ${bound}::float8
     WHERE replan_id = ${replanId}::uuid AND worker_id = ${workerId}::uuid AND state IN ('searching','placing') RETURNING stop_asked_at IS NOT NULL AS stop`);
  const [row] = rows;
  return row === undefined ? "gone" : row.stop ? "stop" : "go on";
}

/** Keeps what was found, or why nothing was. */
export async function endReplan({ workshopId, replanId, workerId }: TakenUp, found: { readonly plan: SeasonPlan } | { readonly failure: string }): Promise<void> {
  const plan = "plan" in found ? found.plan : undefined;
  await inWorkshop(workshopId, (tx) => tx.$executeRaw`
    UPDATE replan SET state = ${plan === undefined ? "failed" : "ready"}, ended_at = clock_timestamp(), plan = ${plan === undefined ? null : JSON.stringify(plan)}::jsonb,
           failure = ${"failure" in found ? found.failure : null}, moves = ${plan?.moves.length ?? null}::int, cost = ${plan?.cost ?? null}::float8, bound = ${plan?.bound ?? null}::float8
     WHERE replan_id = ${replanId}::uuid AND worker_id = ${workerId}::uuid AND state IN ('searching','placing')`);
}

/** Lets go of it, for another process to begin anew. */
export async function putBack({ workshopId, replanId, workerId }: TakenUp): Promise<void> {
  await inWorkshop(workshopId, (tx) => tx.$executeRaw`UPDATE replan SET state = 'waiting', worker_id = NULL WHERE replan_id = ${replanId}::uuid AND worker_id = ${workerId}::uuid AND state IN ('searching','placing')`);
}
