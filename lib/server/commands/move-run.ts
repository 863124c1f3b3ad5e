import { moveRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { placeFiring, writeMoved } from "@/lib/server/runs/move-firing";
import { whoHolds } from "@/lib/server/runs/who-holds";

/** Moves everything of a planned run together, or nothing. */
export const moveRun = command({
  name: "move-run",
  needs: "book-runs",
  input: moveRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, input) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, input.firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = mayChangeRun(ctx, firing, input, { does: "moves this firing", happens: "it moves" });
    if (refusal) return refusal;
    const placed = await placeFiring(ctx, firing, input);
    if (!placed.ok) return placed;
    await writeMoved(ctx, firing, placed.value, input.reason);
    const { kilnFrom, kilnTo } = placed.value.run;
    return ok({ firingId: firing.firingId, kilnFrom: kilnFrom.toString(), kilnTo: kilnTo.toString() });
  },
  onConstraint: async (constraint, who, { kilnId, kilnFrom }) =>
    constraint === "booking_no_overlap" ? whoHolds(who, kilnId, kilnFrom) : undefined,
});
