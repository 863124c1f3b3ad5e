import { paths } from "@/lib/contracts/paths";
import { isOver } from "@/lib/domain/booking/hold";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

/** Makes a held run, whose row is locked, a booked one; its casting's open ask is met. Whether this person may is decided before. */
export async function confirmHeld(ctx: Ctx, firing: LockedFiring): Promise<Outcome<{ readonly firingId: string }>> {
  const { tx, who, now } = ctx;
  const { firingId } = firing;
  const until = firing.heldUntil === null ? null : toInstant(firing.heldUntil);
  if (until !== null && (firing.status === "lapsed" || (firing.status === "held" && isOver(until, now)))) {
    return refuse({
      code: "hold-lapsed",
      field: "firingId",
      message: `This run was held until ${showTime(until, who.timeZone)}, or was let go before; its time is free for everybody.`,
      data: { until: until.toString() },
    });
  }
  if (firing.status !== "held") return refuse({ code: "not-held", field: "firingId", message: `This run is not held; its firing is ${firing.status}.` });
  await tx.firing.updateMany({ where: { firingId }, data: { status: "planned", version: { increment: 1 } } });
  await tx.ask.updateMany({ where: { castingId: firing.plan.castingId, status: "open" }, data: { status: "met", answer: `Confirmed by ${who.name}.` } });
  await ctx.audit({ subject: "firing", subjectId: firingId, before: { status: "held" }, after: { status: "planned" } });
  if (firing.memberId !== who.memberId) {
    await tell(ctx, { to: [firing.memberId], kind: "booked", text: `${who.name} booked the run that was held for ${firing.plan.casting.title}.`, href: paths.firing(firingId) });
  }
  return ok({ firingId });
}
