import { Temporal } from "temporal-polyfill";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { paths } from "@/lib/contracts/paths";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toPlainDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isShared, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord } from "@/lib/server/runs/end-run";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { replaceBookings, steamedOutAt } from "@/lib/server/runs/replace-bookings";
import { takePlan } from "@/lib/server/runs/take-plan";
import { runForRecord } from "@/lib/server/runs/write-run";
import type { Prisma } from "@/lib/server/prisma-client/client";
import { tell } from "@/lib/server/tell";

export type NewPlace = { readonly kilnId: string; readonly kilnFrom: string; readonly steamFrom?: string | undefined };

/**
 * Where a planned run can stand instead, on what the calendar holds now: call it behind lockCalendar. On its own kiln
 * it keeps the plan it was booked with; on another one the casting is planned anew, as it is now, for that kiln.
 */
export async function placeFiring(ctx: Ctx, firing: LockedFiring, { kilnId, kilnFrom, steamFrom }: NewPlace): Promise<Outcome<Placed>> {
  const { plan } = firing;
  if (isShared(firing)) return placeSharedFiring(ctx, firing, kilnId, Temporal.Instant.from(kilnFrom));
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
async function placeSharedFiring(ctx: Ctx, firing: LockedFiring, kilnId: string, kilnFrom: Temporal.Instant): Promise<Outcome<Placed>> {
  const kiln = await kilnToPlanOf(ctx.tx, firing);
  if (!kiln.ok) return kiln;
  if (kiln.value.equipmentId !== kilnId) {
    return otherKilnRefusal(kilnId, kiln.value.name);
  }
  const input = readPlannedInput(firing.plan.inputs);
  if (!input.ok) return input;
  const plan = storedPlan(firing.plan.outputs);
  const run = await placeShared(ctx, firing, { plan, kiln: kiln.value, kilnFrom, kept: steamOutEnds(firing, ctx.now) });
  return run.ok ? ok({ run: run.value, plan, planInput: input.value, kiln: kiln.value }) : run;
}

export function otherKilnRefusal(kilnId: string, own: string): Refusal {
  return refuse({ code: "other-kiln", field: "kilnId", value: kilnId, allowed: own, message: `A shared firing moves within ${own} only: its plan was joined and accepted for that kiln and its shelf.` });
}

/** Puts a run where it was placed, with its record, and tells the others in it. */
export async function writeMoved(ctx: Ctx, firing: LockedFiring, placed: Placed, reason: string | undefined): Promise<void> {
  if (kilnOf(firing)?.equipmentId !== placed.kiln.equipmentId) await takePlan(ctx, firing, placed);
  await writePlaced(ctx, firing, placed, { because: "the firing was moved", reason, told: movedText(firing, placed, ctx.who.timeZone) });
}

/** What those in it read after the name of who moved it. */
export function movedText(firing: LockedFiring, { run, kiln }: Placed, timeZone: string): string {
  return `moved your run for ${titleOf(firing.plan)} to ${kiln.name}, ${showTime(run.kilnFrom, timeZone)}.`;
}

export type PlacedWords = {
  /** What happened, for whoever waits for an answer to join. */
  readonly because: string;
  readonly reason: string | undefined;
  /** What the others in it read after the name of who did it. */
  readonly told: string;
  /** What the record says besides the bookings. */
  readonly before?: Prisma.InputJsonObject;
  readonly after?: Prisma.InputJsonObject;
};

/** Gives a run its new bookings, lifts and check sheet, with its record, and tells the others in it. */
export async function writePlaced(ctx: Ctx, firing: LockedFiring, placed: Placed, { because, reason, told, before, after }: PlacedWords): Promise<void> {
  const { who, now } = ctx;
  const { firingId, plan } = firing;
  await lapseJoining(ctx, firing, because);
  await replaceBookings(ctx, firing, { ...placed, steamStays: new Set(steamOutEnds(firing, now).keys()), castingId: plan.castingId });
  await ctx.audit({
    subject: "firing",
    subjectId: firingId,
    before: { ...before, bookings: bookingsForRecord(firing) },
    after: { ...after, ...runForRecord(placed.run) },
    ...(reason === undefined || reason === "" ? {} : { reason }),
  });
  const others = othersIn(firing, who.memberId);
  if (others.length > 0) await tell(ctx, { to: others, kind: "moved", text: `${who.name} ${told}`, reason, href: paths.firing(firingId) });
}
