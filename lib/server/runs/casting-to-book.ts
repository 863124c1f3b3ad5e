import { can } from "@/lib/domain/access/roles";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import type { CastingToBook } from "@/lib/server/runs/open-firing";

/** The casting, if this person may book it now. It cannot be withdrawn until this transaction ends. */
export async function castingToBook({ tx, who }: Ctx, castingId: string): Promise<Outcome<CastingToBook>> {
  await tx.$executeRaw`/* prepared */ SELECT 1 FROM casting WHERE casting_id = ${castingId}::uuid FOR SHARE`;
  const casting = await tx.casting.findFirst({ where: { castingId } });
  if (casting === null) return refuse({ code: "not-found", field: "castingId", message: "There is no such casting in this workshop." });
  if (casting.memberId !== who.memberId && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  if (casting.withdrawnAt !== null) {
    return refuse({ code: "withdrawn", field: "castingId", message: `${casting.title} was withdrawn; a withdrawn casting cannot be booked.` });
  }
  return ok(casting);
}
