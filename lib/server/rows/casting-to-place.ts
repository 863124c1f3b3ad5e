import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import { sql, type Sql, type Statements } from "@/lib/server/statements";

export type OpenAsk = {
  readonly askId: string;
  /** Null when any kiln that fits will do. */
  readonly kilnName: string | null;
  /** The weeks that are wished for, where a kiln is named. */
  readonly wishedFrom: string | null;
  readonly wishedTo: string | null;
  /** ISO days. */
  readonly notBefore: string | null;
  readonly neededBy: string | null;
  readonly lateDays: number;
  readonly importance: number;
  readonly note: string;
};

/** A casting that looks for time, with the run or the open ask that it has. Days as ISO text, times as the database writes them. */
export type CastingToPlace = {
  readonly castingId: string;
  readonly memberId: string;
  readonly title: string;
  readonly input: unknown;
  readonly owner: string;
  readonly neededBy: string | null;
  readonly withdrawn: boolean;
  readonly firing: { readonly firingId: string; readonly held: boolean } | null;
  readonly ask: OpenAsk | null;
};

export async function castingToPlace(tx: Statements, castingId: string, now: Temporal.Instant): Promise<CastingToPlace | undefined> {
  const [row] = await tx.$queryRaw<readonly CastingToPlace[]>(castingToPlaceStatement(castingId, now));
  return row;
}

/** What `castingToPlace` asks. A hold that is over is no run any more. */
export function castingToPlaceStatement(castingId: string, now: Temporal.Instant): Sql {
  return sql`
    /* prepared */ SELECT c.casting_id AS "castingId", c.member_id AS "memberId", c.title, c.input, m.name AS owner, c.needed_by::text AS "neededBy", c.withdrawn_at IS NOT NULL AS withdrawn,
      (SELECT json_build_object('firingId', f.firing_id, 'held', f.status = 'held') FROM firing_casting s JOIN firing f ON f.workshop_id = s.workshop_id AND f.firing_id = s.firing_id
        WHERE s.workshop_id = c.workshop_id AND s.casting_id = c.casting_id AND s.standing AND NOT (f.status = 'held' AND f.held_until <= ${toDate(now)})) AS firing,
      (SELECT json_build_object('askId', a.ask_id, 'kilnName', k.name, 'wishedFrom', a.wished_from, 'wishedTo', a.wished_to, 'notBefore', a.not_before, 'neededBy', a.needed_by,
                                'lateDays', a.late_days, 'importance', a.importance, 'note', a.note)
         FROM ask a LEFT JOIN equipment k ON k.workshop_id = a.workshop_id AND k.equipment_id = a.kiln_id
        WHERE a.workshop_id = c.workshop_id AND a.casting_id = c.casting_id AND a.status = 'open') AS ask
      FROM casting c JOIN member m ON m.workshop_id = c.workshop_id AND m.member_id = c.member_id
     WHERE c.workshop_id = current_workshop() AND c.casting_id = ${castingId}::uuid`;
}
