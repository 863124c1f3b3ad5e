import { paths } from "@/lib/contracts/paths";
import { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { JoiningRow } from "@/lib/server/joining/joining-state";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { peopleIn } from "@/lib/server/rows/in-firing";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord } from "@/lib/server/runs/end-run";
import { replaceBookings } from "@/lib/server/runs/replace-bookings";
import { runForRecord } from "@/lib/server/runs/write-run";
import { followPlan } from "@/lib/server/runs/write-check-sheet";
import { tell } from "@/lib/server/tell";

/**
 * The last answer is in: the firing gets the joined plan that everybody saw, its longer booking, the new casting's
 * steam-out and lifts, and a sheet to match. All of it or nothing; call it behind lockCalendar and lockFiring.
 */
export async function agree(ctx: Ctx, firing: LockedFiring, joining: JoiningRow): Promise<Outcome<{ readonly kilnTo: string }>> {
  const { tx, who, now } = ctx;
  const { workshopId } = who;
  const { firingId } = firing;
  const { joiningId, castingId, planId } = joining;
  const kiln = await kilnToPlanOf(tx, firing);
  if (!kiln.ok) return kiln;
  const elsewhere = await tx.firingCasting.findFirst({ where: { castingId, standing: true }, select: { firingId: true } });
  if (elsewhere !== null) return refuse({ code: "already-booked", field: "castingId", message: `${joining.casting.title} has got a run of its own meanwhile.`, data: { firingId: elsewhere.firingId } });
  const plan = storedPlan(joining.plan.outputs);
  const kilnFrom = toInstant(joining.kilnFrom);
  const kept = steamOutEnds(firing);
  const run = await placeShared(ctx, firing, { plan, kiln: kiln.value, kilnFrom, kept });
  if (!run.ok) return run;
  const shown = toInstant(joining.kilnTo);
  if (Temporal.Instant.compare(run.value.kilnTo, shown) > 0) {
    const [later, agreed] = [showTime(run.value.kilnTo, who.timeZone), showTime(shown, who.timeZone)];
    return refuse({ code: "end-moved", field: "joiningId", message: `${kiln.value.name} would now be free again at ${later}, not at ${agreed} as everybody was shown, because others took the hands or the trolley for unloading. Propose it again.` });
  }
  await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "agreed", endedAt: toDate(now), endedBecause: "Everybody accepted." } });
  await tx.firing.updateMany({ where: { firingId }, data: { planId } });
  await tx.firingCasting.upsert({
    where: { workshopId_firingId_castingId: { workshopId, firingId, castingId } },
    create: { workshopId, firingId, castingId, joinedAt: toDate(now) },
    update: { standing: true, joinedAt: toDate(now) },
  });
  await replaceBookings(ctx, firing, { run: run.value, plan, steamStays: new Set(kept.keys()), castingId: joining.plan.castingId });
  const inputs = joining.plan.castings.map(({ inputs: stored }) => readPlannedInput(stored)).flatMap((read) => (read.ok ? [read.value] : []));
  await followPlan(tx, { workshopId, firingId }, plan, inputs, toDate(now));
  await tx.ask.updateMany({ where: { castingId, status: "open" }, data: { status: "met", answer: "It shares a firing now." } });
  await ctx.audit({ subject: "firing", subjectId: firingId, before: { bookings: bookingsForRecord(firing), planId: firing.planId }, after: { ...runForRecord(run.value), planId, joined: castingId } });
  const until = showTime(run.value.kilnTo, who.timeZone);
  const to = [...peopleIn(firing), joining.casting.memberId].filter((one) => one !== who.memberId);
  await tell(ctx, { to, kind: "share", text: `${joining.casting.title} now shares the firing of ${titleOf(firing.plan)} in ${kiln.value.name}, until ${until}.`, href: paths.firing(firingId) });
  return ok({ kilnTo: run.value.kilnTo.toString() });
}
