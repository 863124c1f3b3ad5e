import { Temporal } from "temporal-polyfill";
import type { z } from "zod";
import { paths } from "@/lib/contracts/paths";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { moveRunSchema } from "@/lib/contracts/runs";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toPlainDate } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isShared, othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord } from "@/lib/server/runs/end-run";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { kilnOf, placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { replaceBookings, steamedOutAt } from "@/lib/server/runs/replace-bookings";
import { takePlan } from "@/lib/server/runs/take-plan";
import { whoHolds } from "@/lib/server/runs/who-holds";
import { runForRecord } from "@/lib/server/runs/write-run";
import { tell } from "@/lib/server/tell";

type Input = z.infer<typeof moveRunSchema>;

/**
 * Moves everything of a planned run together, or nothing. On its own kiln a run keeps the plan it was
 * booked with; on another one the casting is planned anew, as it is now, for that kiln.
 */
export const moveRun = command({
  name: "move-run",
  needs: "book-runs",
  input: moveRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, input: Input) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, input.firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = mayChangeRun(ctx, firing, input, { does: "moves this firing", happens: "it moves" });
    if (refusal) return refusal;
    const placed = await newPlace(ctx, firing, input);
    if (!placed.ok) return placed;
    await write(ctx, firing, placed.value, input);
    const { kilnFrom, kilnTo } = placed.value.run;
    return ok({ firingId: firing.firingId, kilnFrom: kilnFrom.toString(), kilnTo: kilnTo.toString() });
  },
  onConstraint: async (constraint, who, { kilnId, kilnFrom }) =>
    constraint === "booking_no_overlap" ? whoHolds(who, kilnId, kilnFrom) : undefined,
});

async function newPlace(ctx: Ctx, firing: LockedFiring, { kilnId, kilnFrom, steamFrom }: Input): Promise<Outcome<Pick<Placed, "run" | "plan" | "planInput" | "kiln">>> {
  const { plan } = firing;
  if (isShared(firing)) return newSharedPlace(ctx, firing, kilnId, Temporal.Instant.from(kilnFrom));
  const sameKiln = kilnOf(firing)?.equipmentId === kilnId;
  const input = sameKiln ? readPlannedInput(plan.inputs) : readCastingInput(plan.casting.input);
  if (!input.ok) return input;
  const { neededBy } = plan.casting;
  const steamed = steamedOutAt(firing, ctx.now);
  return placeRun(ctx, {
    input: input.value,
    neededBy: neededBy === null ? null : toPlainDate(neededBy),
    ownerId: firing.memberId,
    kilnId,
    kilnFrom: Temporal.Instant.from(kilnFrom),
    steamFrom: steamFrom === undefined || steamed !== undefined ? undefined : Temporal.Instant.from(steamFrom),
    withoutFiring: firing.firingId,
    steamedOutAt: steamed,
    plan: sameKiln ? storedPlan(plan.outputs) : undefined,
  });
}

/** A shared firing keeps its joined plan, which was accepted for its own kiln and that kiln's shelf. */
async function newSharedPlace(ctx: Ctx, firing: LockedFiring, kilnId: string, kilnFrom: Temporal.Instant): Promise<Outcome<Pick<Placed, "run" | "plan" | "planInput" | "kiln">>> {
  const kiln = await kilnToPlanOf(ctx.tx, firing);
  if (!kiln.ok) return kiln;
  if (kiln.value.equipmentId !== kilnId) {
    return refuse({ code: "other-kiln", field: "kilnId", value: kilnId, allowed: kiln.value.name, message: `A shared firing moves within ${kiln.value.name} only: its plan was joined and accepted for that kiln and its shelf.` });
  }
  const input = readPlannedInput(firing.plan.inputs);
  if (!input.ok) return input;
  const plan = storedPlan(firing.plan.outputs);
  const run = await placeShared(ctx, firing, { plan, kiln: kiln.value, kilnFrom, kept: steamOutEnds(firing, ctx.now) });
  return run.ok ? ok({ run: run.value, plan, planInput: input.value, kiln: kiln.value }) : run;
}

async function write(ctx: Ctx, firing: LockedFiring, placed: Placed, { reason }: Input): Promise<void> {
  const { who, now } = ctx;
  const { firingId, plan } = firing;
  if (kilnOf(firing)?.equipmentId !== placed.kiln.equipmentId) {
    await takePlan(ctx, firing, placed);
  }
  await lapseJoining(ctx, firing, "the firing was moved");
  await replaceBookings(ctx, firing, { ...placed, steamStays: new Set(steamOutEnds(firing, now).keys()), castingId: plan.castingId });
  await ctx.audit({
    subject: "firing",
    subjectId: firingId,
    before: { bookings: bookingsForRecord(firing) },
    after: runForRecord(placed.run),
    ...(reason === undefined || reason === "" ? {} : { reason }),
  });
  const others = othersIn(firing, who.memberId);
  if (others.length > 0) {
    const when = showTime(placed.run.kilnFrom, who.timeZone);
    const text = `${who.name} moved your run for ${titleOf(plan)} to ${placed.kiln.name}, ${when}.`;
    await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
  }
}
