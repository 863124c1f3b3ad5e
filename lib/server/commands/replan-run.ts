import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { replanRunSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { showKilnWeeks, showTime } from "@/lib/domain/time/show-time";
import { command, type Ctx } from "@/lib/server/command";
import { steamOutEnds } from "@/lib/server/joining/place-shared";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isShared, othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord } from "@/lib/server/runs/end-run";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { placeAnew } from "@/lib/server/runs/place-anew";
import type { Placed } from "@/lib/server/runs/place-run";
import { replaceBookings } from "@/lib/server/runs/replace-bookings";
import { takePlan } from "@/lib/server/runs/take-plan";
import { runForRecord } from "@/lib/server/runs/write-run";
import { tell } from "@/lib/server/tell";

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
  const { who, now } = ctx;
  const { firingId, plan } = firing;
  await takePlan(ctx, firing, placed);
  await lapseJoining(ctx, firing, "the firing was planned anew");
  await replaceBookings(ctx, firing, { ...placed, steamStays: new Set(steamOutEnds(firing, now).keys()), castingId: plan.castingId });
  const hours = (of: { readonly reservation: { readonly hours: number } }): number => of.reservation.hours;
  await ctx.audit({
    subject: "firing",
    subjectId: firingId,
    before: { hours: hours(storedPlan(plan.outputs)), bookings: bookingsForRecord(firing) },
    after: { hours: hours(placed.plan), ...runForRecord(placed.run) },
    ...(reason === undefined || reason === "" ? {} : { reason }),
  });
  const others = othersIn(firing, who.memberId);
  if (others.length === 0) return;
  const text = `${who.name} planned your run for ${titleOf(plan)} anew: ${showKilnWeeks(hours(placed.plan))} in ${placed.kiln.name}, free again ${showTime(Temporal.Instant.from(placed.run.kilnTo.toString()), who.timeZone)}.`;
  await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
}
