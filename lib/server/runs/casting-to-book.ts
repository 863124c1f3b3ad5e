import { can } from "@/lib/domain/access/roles";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { NOT_ALLOWED, type CtxOf } from "@/lib/server/command";
import type { CastingToBook } from "@/lib/server/runs/open-firing";
import { sql, type Sql, type Statements } from "@/lib/server/statements";

type Row = Omit<CastingToBook, "neededBy"> & { readonly neededBy: string | null; readonly withdrawnAt: Date | null };

/** The casting, if this person may book it now. It cannot be withdrawn until this transaction ends. */
export async function castingToBook({ tx, who }: CtxOf<Statements>, castingId: string): Promise<Outcome<CastingToBook>> {
  const [casting] = await tx.$queryRaw<readonly Row[]>(castingStatement(castingId));
  if (casting === undefined) return refuse({ code: "not-found", field: "castingId", message: "There is no such casting in this workshop." });
  if (casting.memberId !== who.memberId && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  if (casting.withdrawnAt !== null) {
    return refuse({ code: "withdrawn", field: "castingId", message: `${casting.title} was withdrawn; a withdrawn casting cannot be booked.` });
  }
  return ok({ ...casting, neededBy: casting.neededBy === null ? null : new Date(casting.neededBy) });
}

/** What `castingToBook` asks. */
export function castingStatement(castingId: string): Sql {
  return sql`
    /* prepared */ SELECT casting_id AS "castingId", member_id AS "memberId", title, input, needed_by::text AS "neededBy", withdrawn_at AS "withdrawnAt"
      FROM casting WHERE workshop_id = current_workshop() AND casting_id = ${castingId}::uuid FOR SHARE`;
}
