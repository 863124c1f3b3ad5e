import { cancelRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { endRun, notPlanned } from "@/lib/server/runs/end-run";

/** The owner gives a planned run back: steamer, trolleys, kiln and hands are free at once. */
export const cancelRun = command({
  name: "cancel-run",
  needs: "book-runs",
  input: cancelRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, reason }) => {
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (firing.memberId !== ctx.who.memberId) {
      return refuse({ code: "not-allowed", message: `This run is ${firing.member.name}'s; only its owner cancels it. The manager may release it, with a reason.` });
    }
    const refusal = notPlanned(firing);
    if (refusal) return refusal;
    await endRun(ctx, firing, "cancelled", reason === "" ? undefined : reason);
    return ok({ firingId, castingId: firing.plan.castingId });
  },
});
