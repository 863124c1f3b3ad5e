import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { Ctx } from "@/lib/server/command";
import { findJoining, overBecause, type JoiningRow } from "@/lib/server/joining/joining-state";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";

const NO_SUCH_JOINING = { code: "not-found", message: "There is no such proposal in this workshop.", field: "joiningId" };

/** Locks a proposal behind the firing it is for: whoever changes either waits for the other, always in this order. */
export async function lockJoining({ tx }: Pick<Ctx, "tx">, joiningId: string): Promise<Outcome<{ readonly firing: LockedFiring; readonly joining: JoiningRow }>> {
  const asked = await tx.joining.findFirst({ where: { joiningId }, select: { firingId: true } });
  if (asked === null) return refuse(NO_SUCH_JOINING);
  const firing = await lockFiring(tx, asked.firingId);
  if (firing === null) return refuse(NO_SUCH_FIRING);
  await tx.$executeRaw`SELECT 1 FROM joining WHERE joining_id = ${joiningId}::uuid FOR UPDATE`;
  const joining = await findJoining(tx, joiningId);
  return joining === null ? refuse(NO_SUCH_JOINING) : ok({ firing, joining });
}

/** Refused with the reason when a proposal does not stand any more. */
export function stillOpen(joining: JoiningRow, now: Ctx["now"]): Outcome<undefined> {
  const over = overBecause(joining, now);
  return over === undefined ? ok(undefined) : refuse({ code: "proposal-over", field: "joiningId", message: `This proposal does not stand any more. ${over}` });
}
