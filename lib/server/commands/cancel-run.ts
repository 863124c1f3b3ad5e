import { paths } from "@/lib/contracts/paths";
import { cancelRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn, owedReason } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { endRun, notEndable } from "@/lib/server/runs/end-run";
import { tell } from "@/lib/server/tell";

/**
 * The owner gives a planned run back: steamer, trolleys, kiln and hands are free at once. Where others share it, they
 * lose their run too, so they are owed a reason and told it; to take only one's own casting out is `leave-firing`.
 */
export const cancelRun = command({
  name: "cancel-run",
  needs: "book-runs",
  input: cancelRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, reason }) => {
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (firing.memberId !== ctx.who.memberId) {
      return refuse({ code: "not-allowed", message: `This run is ${firing.member.name}'s; only its owner cancels it for all. Who shares it takes their own casting out. The manager may release it, with a reason.` });
    }
    const refusal = notEndable(firing) ?? owedReason(firing, reason, "it is cancelled");
    if (refusal) return refusal;
    await endRun(ctx, firing, "cancelled", reason === "" ? undefined : reason);
    const told = othersIn(firing, ctx.who.memberId);
    if (told.length > 0) await tell(ctx, { to: told, kind: "cancelled", text: `${ctx.who.name} cancelled the firing that you shared, ${titleOf(firing.plan)}. Your casting can be booked anew.`, reason, href: paths.castings });
    return ok({ firingId, castingId: firing.plan.castingId });
  },
});
