import { leaveFiringSchema } from "@/lib/contracts/joining";
import { paths } from "@/lib/contracts/paths";
import { REASON_MIN_CHARS } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { planFiring } from "@/lib/domain/firing/plan";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { joinPlans } from "@/lib/domain/sharing/join-plans";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { plannedSharers, type OwnedSharer } from "@/lib/server/joining/load-sharers";
import { placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { writeJoinedPlan } from "@/lib/server/joining/write-joined-plan";
import { isShared, othersIn } from "@/lib/server/rows/in-firing";
import { kilnFromOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord, notPlanned } from "@/lib/server/runs/end-run";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { placeRun } from "@/lib/server/runs/place-run";
import { replaceBookings } from "@/lib/server/runs/replace-bookings";
import { followPlan } from "@/lib/server/runs/write-check-sheet";
import { runForRecord } from "@/lib/server/runs/write-run";
import { tell } from "@/lib/server/tell";

/**
 * Takes one casting out of a shared firing that has not started: the plan is made anew for the rest, at the same
 * start, and they are told. Where the firing was this casting's owner's, it passes to whoever joined next.
 */
export const leaveFiring = command({
  name: "leave-firing",
  needs: "book-runs",
  input: leaveFiringSchema,
  run: async (ctx, { firingId, castingId, reason }) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const leaving = firing.castings.find((one) => one.castingId === castingId)?.casting;
    if (leaving === undefined) return refuse({ code: "not-in", field: "castingId", message: "This casting is not in that firing." });
    const refusal = mayLeave(ctx, firing, leaving.memberId, reason);
    if (refusal !== undefined) return refusal;
    const rest = await planRest(ctx, firing, castingId);
    if (!rest.ok) return rest;
    await write(ctx, firing, { castingId, title: leaving.title, reason }, rest.value);
    const others = [...othersIn(firing, ctx.who.memberId)];
    const until = showTime(rest.value.run.kilnTo, ctx.who.timeZone);
    await tell(ctx, { to: others, kind: "share", text: `${ctx.who.name} took ${leaving.title} out of the firing in ${rest.value.kiln.name}. It is planned anew for the rest and now ends ${until}.`, reason, href: paths.firing(firingId) });
    return ok({ firingId, castingId, kilnTo: rest.value.run.kilnTo.toString() });
  },
});

function mayLeave({ who }: Ctx, firing: LockedFiring, ownerId: string, reason: string | undefined): Refusal | undefined {
  const mine = ownerId === who.memberId;
  if (!mine && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  const status = notPlanned(firing);
  if (status !== undefined) return status;
  if (!isShared(firing)) return refuse({ code: "not-shared", field: "firingId", message: "Nothing else is in this firing; cancel the run instead." });
  if (mine || (reason ?? "").length >= REASON_MIN_CHARS) return undefined;
  return refuse({ code: "reason-too-short", field: "reason", value: reason ?? "", allowed: `${REASON_MIN_CHARS} characters or more`, message: `This casting is another's: say why it is taken out, in ${REASON_MIN_CHARS} characters or more.` });
}

type Rest = { readonly sharers: readonly OwnedSharer[]; readonly plan: CastingPlan; readonly run: RunProposal; readonly kiln: KilnToPlan };

async function planRest(ctx: Ctx, firing: LockedFiring, leaving: string): Promise<Outcome<Rest>> {
  const kiln = await kilnToPlanOf(ctx.tx, firing);
  if (!kiln.ok) return kiln;
  const staying = firing.castings.filter((one) => one.castingId !== leaving).map((one) => one.casting);
  const sharers = await plannedSharers(ctx.tx, firing.plan, staying, kiln.value);
  if (!sharers.ok) return sharers;
  const [only, ...more] = sharers.value;
  if (only === undefined) throw new Error("a shared firing of one casting");
  const plan = more.length > 0 ? joinPlans(sharers.value, kiln.value.limits) : planFiring(only.input, only.mesh);
  if (!plan.ok) return plan;
  const run = more.length > 0 ? await placeRest(ctx, firing, kiln.value, plan.value, leaving) : await placeLast(ctx, firing, kiln.value, plan.value, only);
  return run.ok ? ok({ sharers: sharers.value, plan: plan.value, run: run.value, kiln: kiln.value }) : run;
}

function placeRest(ctx: Ctx, firing: LockedFiring, kiln: KilnToPlan, plan: CastingPlan, leaving: string): Promise<Outcome<RunProposal>> {
  const kept = new Map([...steamOutEnds(firing)].filter(([castingId]) => castingId !== leaving));
  return placeShared(ctx, firing, { plan, kiln, kilnFrom: kilnFromOf(firing), kept });
}

async function placeLast(ctx: Ctx, firing: LockedFiring, kiln: KilnToPlan, plan: CastingPlan, only: OwnedSharer): Promise<Outcome<RunProposal>> {
  const placed = await placeRun(ctx, {
    input: only.input, neededBy: null, ownerId: only.memberId, kilnId: kiln.equipmentId, kilnFrom: kilnFromOf(firing),
    withoutFiring: firing.firingId, steamedOutAt: steamOutEnds(firing).get(only.castingId), plan,
  });
  return placed.ok ? ok(placed.value.run) : placed;
}

async function write(ctx: Ctx, firing: LockedFiring, leaving: { readonly castingId: string; readonly title: string; readonly reason: string | undefined }, { sharers, plan, run }: Rest): Promise<void> {
  const { tx, who, now } = ctx;
  const { workshopId } = who;
  const { firingId } = firing;
  const [first] = sharers;
  if (first === undefined) throw new Error("nobody is left");
  const castingId = sharers.some((one) => one.castingId === firing.plan.castingId) ? firing.plan.castingId : first.castingId;
  const memberId = sharers.some((one) => one.memberId === firing.memberId) ? firing.memberId : first.memberId;
  await lapseJoining(ctx, firing, `${leaving.title} was taken out`);
  const planId = await writeJoinedPlan(ctx, plan, sharers, castingId);
  await tx.firing.updateMany({ where: { firingId }, data: { planId, memberId } });
  await tx.firingCasting.updateMany({ where: { firingId, castingId: leaving.castingId }, data: { standing: false } });
  const steamStays = new Set([...steamOutEnds(firing).keys()].filter((one) => one !== leaving.castingId));
  await replaceBookings(ctx, firing, { run, plan, steamStays, castingId });
  await followPlan(tx, { workshopId, firingId }, plan, sharers.map(({ input }) => input), toDate(now));
  await ctx.audit({
    subject: "firing", subjectId: firingId,
    before: { bookings: bookingsForRecord(firing), planId: firing.planId, memberId: firing.memberId },
    after: { ...runForRecord(run), planId, memberId, left: leaving.castingId },
    ...(leaving.reason === undefined || leaving.reason === "" ? {} : { reason: leaving.reason }),
  });
}
