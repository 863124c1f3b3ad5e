import { paths } from "@/lib/contracts/paths";
import { releaseRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isShared, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { endRun, notEndable } from "@/lib/server/runs/end-run";
import { tell } from "@/lib/server/tell";

/** The manager takes a planned run off the calendar and says why; its owner is told and may book anew. */
export const releaseRun = command({
  name: "release-run",
  needs: "manage-runs",
  input: releaseRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, reason }) => {
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = notEndable(firing);
    if (refusal) return refusal;
    await endRun(ctx, firing, "released", reason);
    const told = othersIn(firing, ctx.who.memberId);
    if (told.length > 0) {
      const text = `${ctx.who.name} released your run for ${titleOf(firing.plan)}${was(firing, ctx.who.timeZone)}.`;
      await tell(ctx, { to: told, kind: "cancelled", text, reason, href: isShared(firing) ? paths.castings : paths.findTime(firing.plan.castingId) });
    }
    return ok({ firingId, castingId: firing.plan.castingId });
  },
});

/** Where and when it stood, so that the mail of it can be read alone. */
function was(firing: LockedFiring, timeZone: string): string {
  const kiln = kilnOf(firing);
  return kiln === undefined ? "" : ` in ${kiln.equipment.name}, ${showTime(toInstant(kiln.startsAt), timeZone)}`;
}
