import { confirmHoldSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { isOver } from "@/lib/domain/booking/hold";
import { ok, refuse } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";

/** Makes a held run a booked one. Nothing on the calendar changes: its time was kept free for it. */
export const confirmHold = command({
  name: "confirm-hold",
  needs: "book-runs",
  input: confirmHoldSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId }) => {
    const { tx, who, now } = ctx;
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (firing.memberId !== who.memberId && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    const until = firing.heldUntil === null ? null : toInstant(firing.heldUntil);
    if (until !== null && (firing.status === "lapsed" || (firing.status === "held" && isOver(until, now)))) {
      return refuse({
        code: "hold-lapsed",
        field: "firingId",
        message: `This run was held until ${showTime(until, who.timeZone)}; that is past, and its time is free for everybody.`,
        data: { until: until.toString() },
      });
    }
    if (firing.status !== "held") return refuse({ code: "not-held", field: "firingId", message: `This run is not held; its firing is ${firing.status}.` });
    await tx.firing.updateMany({ where: { firingId }, data: { status: "planned", version: { increment: 1 } } });
    await tx.ask.updateMany({ where: { castingId: firing.plan.castingId, status: "open" }, data: { status: "met", answer: `Confirmed by ${who.name}.` } });
    await ctx.audit({ subject: "firing", subjectId: firingId, before: { status: "held" }, after: { status: "planned" } });
    return ok({ firingId });
  },
});
