import { paths } from "@/lib/contracts/paths";
import { releaseRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { endRun, notPlanned } from "@/lib/server/runs/end-run";

/** The manager takes a planned run off the calendar and says why; its owner is told and may book anew. */
export const releaseRun = command({
  name: "release-run",
  needs: "manage-runs",
  input: releaseRunSchema,
  run: async (ctx, { firingId, reason }) => {
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = notPlanned(firing);
    if (refusal) return refusal;
    await endRun(ctx, firing, "released", reason);
    if (firing.memberId !== ctx.who.memberId) {
      await ctx.tell(
        firing.memberId,
        `${ctx.who.name} released your run for ${firing.plan.casting.title}: ${reason}`,
        paths.findTime(firing.plan.castingId),
      );
    }
    return ok({ firingId, castingId: firing.plan.castingId });
  },
});
