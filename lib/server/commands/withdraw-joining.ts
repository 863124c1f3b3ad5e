import { paths } from "@/lib/contracts/paths";
import { withdrawJoiningSchema } from "@/lib/contracts/joining";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { NO_SUCH_JOINING } from "@/lib/server/commands/answer-joining";
import { findJoining, overBecause } from "@/lib/server/joining/joining-state";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

/** Who proposed it takes the proposal back; the firing stays as it is. */
export const withdrawJoining = command({
  name: "withdraw-joining",
  needs: "book-runs",
  input: withdrawJoiningSchema,
  run: async (ctx, { joiningId }) => {
    const { tx, who, now } = ctx;
    const asked = await tx.joining.findFirst({ where: { joiningId }, select: { firingId: true } });
    if (asked === null) return refuse(NO_SUCH_JOINING);
    const firing = await lockFiring(tx, asked.firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    await tx.$executeRaw`SELECT 1 FROM joining WHERE joining_id = ${joiningId}::uuid FOR UPDATE`;
    const joining = await findJoining(tx, joiningId);
    if (joining === null) return refuse(NO_SUCH_JOINING);
    if (joining.memberId !== who.memberId) return refuse(NOT_ALLOWED);
    const over = overBecause(joining, now);
    if (over !== undefined) return refuse({ code: "proposal-over", field: "joiningId", message: `This proposal does not stand any more. ${over}` });
    await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "withdrawn", endedAt: toDate(now), endedBecause: `${who.name} took it back.` } });
    await ctx.audit({ subject: "joining", subjectId: joiningId, before: { status: "open" }, after: { status: "withdrawn" } });
    await tell(ctx, { to: othersIn(firing, who.memberId), kind: "share", text: `${who.name} took back the proposal that ${joining.casting.title} joins ${titleOf(firing.plan)}.`, href: paths.joining(joiningId) });
    return ok({ joiningId });
  },
});
