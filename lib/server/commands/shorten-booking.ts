import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { shortenBookingSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { earlierEnd } from "@/lib/domain/booking/shorten";
import { ok, refuse } from "@/lib/domain/refusal";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { openEnd, writeEnd } from "@/lib/server/runs/change-end";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

/** Gives the end of a firing's kiln time back: its unloading moves forward, and what follows is free for others at once. */
export const shortenBooking = command({
  name: "shorten-booking",
  needs: "book-runs",
  input: shortenBookingSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, kilnTo, reason }) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (!isIn(firing, ctx.who.memberId) && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    const open = await openEnd(ctx, firing);
    if (!open.ok) return open;
    const { kiln, kilnFrom, booked, question } = open.value;
    const end = earlierEnd(question, kiln, { kilnFrom, booked, wanted: Temporal.Instant.from(kilnTo), coolAt: coolAt(firing, kilnFrom) });
    if (!end.ok) return end;
    await writeEnd(ctx, firing, end.value, "the booking was shortened");
    const after = { kilnTo: end.value.kilnTo.toString(), unloadFrom: end.value.unloadFrom.toString() };
    await ctx.audit({ subject: "firing", subjectId: firingId, before: { kilnTo: booked.toString() }, after, ...(reason ? { reason } : {}) });
    const others = othersIn(firing, ctx.who.memberId);
    if (others.length > 0) {
      const text = `${ctx.who.name} shortened your run for ${titleOf(firing.plan)} in ${kiln.name}: it is unloaded ${showTime(end.value.unloadFrom, ctx.who.timeZone)}.`;
      await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
    }
    return ok({ firingId, kilnTo: after.kilnTo });
  },
});

/** As somebody said who stands beside the kiln; else when what the plan reserves is over. */
function coolAt({ expectedEnd, plan }: LockedFiring, kilnFrom: Temporal.Instant): Temporal.Instant {
  if (expectedEnd !== null) return toInstant(expectedEnd);
  return kilnFrom.add({ milliseconds: Math.ceil(storedPlan(plan.outputs).reservation.hours * MS_PER_HOUR) });
}
