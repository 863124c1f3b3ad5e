import { paths } from "@/lib/contracts/paths";
import { withdrawJoiningSchema } from "@/lib/contracts/joining";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { lockJoining, stillOpen } from "@/lib/server/joining/lock-joining";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { tell } from "@/lib/server/tell";

/** Who proposed it takes the proposal back; the firing stays as it is. */
export const withdrawJoining = command({
  name: "withdraw-joining",
  needs: "book-runs",
  input: withdrawJoiningSchema,
  run: async (ctx, { joiningId }) => {
    const { tx, who, now } = ctx;
    const locked = await lockJoining(ctx, joiningId);
    if (!locked.ok) return locked;
    const { firing, joining } = locked.value;
    if (joining.memberId !== who.memberId) return refuse(NOT_ALLOWED);
    const open = stillOpen(joining, now);
    if (!open.ok) return open;
    await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "withdrawn", endedAt: toDate(now), endedBecause: `${who.name} took it back.` } });
    await ctx.audit({ subject: "joining", subjectId: joiningId, before: { status: "open" }, after: { status: "withdrawn" } });
    await tell(ctx, { to: othersIn(firing, who.memberId), kind: "share", text: `${who.name} took back the proposal that ${joining.casting.title} joins ${titleOf(firing.plan)}.`, href: paths.joining(joiningId) });
    return ok({ joiningId });
  },
});
