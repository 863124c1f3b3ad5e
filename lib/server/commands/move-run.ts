import { Temporal } from "temporal-polyfill";
import type { z } from "zod";
import { paths } from "@/lib/contracts/paths";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { moveRunSchema, REASON_MIN_CHARS } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { ok, refuse, type Refusal } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toPlainDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { bookingsForRecord, notPlanned } from "@/lib/server/runs/end-run";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { replaceBookings, steamedOutAt } from "@/lib/server/runs/replace-bookings";
import { toJson } from "@/lib/server/runs/to-json";
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
    await lockCalendar(ctx.tx, ctx.who.workshopId);
    const firing = await lockFiring(ctx.tx, input.firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const refusal = mayMove(ctx, firing, input);
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

function mayMove({ who }: Ctx, firing: LockedFiring, { version, reason = "" }: Input): Refusal | undefined {
  const mine = firing.memberId === who.memberId;
  if (!mine && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  const status = notPlanned(firing);
  if (status) return status;
  if (firing.version !== version) {
    return refuse({ code: "changed-meanwhile", message: "Somebody changed this run since you opened the page. Look at it again before you move it." });
  }
  if (!mine && reason.length < REASON_MIN_CHARS) {
    return refuse({
      code: "reason-too-short",
      field: "reason",
      value: reason,
      allowed: `${REASON_MIN_CHARS} characters or more`,
      message: `This run is ${firing.member.name}'s: say why it moves, in ${REASON_MIN_CHARS} characters or more.`,
    });
  }
  return undefined;
}

async function newPlace(ctx: Ctx, firing: LockedFiring, { kilnId, kilnFrom, steamFrom }: Input) {
  const { plan } = firing;
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

async function write(ctx: Ctx, firing: LockedFiring, placed: Placed, { reason }: Input): Promise<void> {
  const { tx, who, now } = ctx;
  const { firingId, plan } = firing;
  if (kilnOf(firing)?.equipmentId !== placed.kiln.equipmentId) {
    const { planId } = await tx.plan.create({
      data: {
        workshopId: who.workshopId,
        castingId: plan.castingId,
        calculation: placed.plan.calculation,
        inputs: toJson(placed.planInput),
        outputs: toJson(placed.plan),
        createdAt: toDate(now),
      },
    });
    await tx.firing.updateMany({ where: { firingId }, data: { planId } });
  }
  await replaceBookings(ctx, firing, placed, steamedOutAt(firing, now) !== undefined);
  await ctx.audit({
    subject: "firing",
    subjectId: firingId,
    before: { bookings: bookingsForRecord(firing) },
    after: runForRecord(placed.run),
    ...(reason === undefined || reason === "" ? {} : { reason }),
  });
  if (firing.memberId !== who.memberId) {
    const when = showTime(placed.run.kilnFrom, who.timeZone);
    const text = `${who.name} moved your run for ${plan.casting.title} to ${placed.kiln.name}, ${when}.`;
    await tell(ctx, { to: [firing.memberId], kind: "moved", text, reason, href: paths.firing(firingId) });
  }
}

function kilnOf(firing: LockedFiring) {
  return firing.bookings.find((booking) => booking.purpose === "kiln");
}
