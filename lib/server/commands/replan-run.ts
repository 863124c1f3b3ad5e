import { replanRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { showKilnWeeks, showTime } from "@/lib/domain/time/show-time";
import { command, type Ctx } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isShared } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { writePlaced } from "@/lib/server/runs/move-firing";
import { placeAnew } from "@/lib/server/runs/place-anew";
import type { Placed } from "@/lib/server/runs/place-run";
import { takePlan } from "@/lib/server/runs/take-plan";

/**
 * Plans a planned run anew from the casting as it is now, in its kiln and from the same closing of the door:
 * what it holds becomes longer or shorter with the plan, its lifts and its check sheet follow, or nothing
 * changes. Where the longer plan finds no room the refusal says who comes next; the run may then be moved.
 */
export const replanRun = command({
  name: "replan-run",
  needs: "book-runs",
  input: replanRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, input) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, input.firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = mayChangeRun(ctx, firing, input, { does: "plans this firing anew", happens: "it is planned anew" });
    if (refusal) return refusal;
    if (isShared(firing)) {
      return refuse({ code: "shared", field: "firingId", message: "A shared firing keeps the plan that all in it accepted. Take the changed casting out of it and propose it again." });
    }
    const placed = await placeAnew(ctx, firing);
    if (!placed.ok) return placed;
    await write(ctx, firing, placed.value, input.reason);
    return ok({ firingId: firing.firingId, kilnTo: placed.value.run.kilnTo.toString() });
  },
});

async function write(ctx: Ctx, firing: LockedFiring, placed: Placed, reason: string | undefined): Promise<void> {
  await takePlan(ctx, firing, placed);
  const { hours } = placed.plan.reservation;
  await writePlaced(ctx, firing, placed, {
    because: "the firing was planned anew",
    reason,
    told: `planned your run for ${titleOf(firing.plan)} anew: ${showKilnWeeks(hours)} in ${placed.kiln.name}, free again ${showTime(placed.run.kilnTo, ctx.who.timeZone)}.`,
    before: { hours: storedPlan(firing.plan.outputs).reservation.hours },
    after: { hours },
  });
}
