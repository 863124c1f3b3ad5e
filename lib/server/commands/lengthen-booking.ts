import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { lengthenBookingSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { laterEnd, type LaterEnd } from "@/lib/domain/booking/lengthen";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { equipmentOf, loadEquipment } from "@/lib/server/rows/equipment";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { horizonFrom, loadRunQuestion } from "@/lib/server/runs/run-question";
import { tell } from "@/lib/server/tell";

/** Holds a firing's kiln for longer and moves its unloading to then; the rest of the run stays. */
export const lengthenBooking = command({
  name: "lengthen-booking",
  needs: "book-runs",
  input: lengthenBookingSchema,
  run: async (ctx, { firingId, kilnTo, reason }) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const mine = isIn(firing, ctx.who.memberId);
    if (!mine && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    const end = await newEnd(ctx, firing, Temporal.Instant.from(kilnTo));
    if (!end.ok) return end;
    const before = await write(ctx, firing, end.value);
    const after = { kilnTo: end.value.kilnTo.toString(), unloadFrom: end.value.unloadFrom.toString() };
    await ctx.audit({ subject: "firing", subjectId: firingId, before, after, ...(reason ? { reason } : {}) });
    const others = othersIn(firing, ctx.who.memberId);
    if (others.length > 0) {
      const until = showTime(end.value.kilnTo, ctx.who.timeZone);
      const text = `${ctx.who.name} lengthened your run for ${titleOf(firing.plan)} in ${kilnBooking(firing)?.equipment.name ?? "its kiln"} until ${until}.`;
      await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
    }
    return ok({ firingId, kilnTo: after.kilnTo });
  },
});

async function newEnd(ctx: Ctx, firing: LockedFiring, wanted: Temporal.Instant): Promise<Outcome<LaterEnd>> {
  const { tx, who, now } = ctx;
  const booking = kilnBooking(firing);
  if (booking === undefined || (firing.status !== "planned" && firing.status !== "started")) {
    return refuse({ code: "not-running", field: "firingId", message: `This firing is ${firing.status}; its booking cannot be lengthened.` });
  }
  const kiln = equipmentOf(booking.equipment);
  if (kiln.kind !== "kiln") throw new Error(`booking ${booking.bookingId} is of a ${kiln.kind}, not of a kiln`);
  const booked = toInstant(booking.endsAt);
  if (Temporal.Instant.compare(wanted, booked) <= 0) {
    const until = showTime(booked, who.timeZone);
    return refuse({
      code: "not-longer",
      field: "kilnTo",
      value: wanted.toString(),
      allowed: `later than ${until}`,
      message: `${kiln.name} is booked until ${until} already; choose a later time.`,
    });
  }
  const question = await loadRunQuestion(tx, who, {
    plan: storedPlan(firing.plan.outputs),
    planByKiln: new Map(),
    equipment: await loadEquipment(tx),
    driedBeforeLoading: false,
    notBefore: now,
    neededBy: null,
    perKiln: 1,
    named: { equipmentIds: [kiln.equipmentId], from: now, until: horizonFrom(now, who.timeZone) },
    withoutFiring: firing.firingId,
    // What is steamed and loaded is past or stays where it is; only the end is asked for.
    steamedOutAt: toInstant(booking.startsAt),
  });
  const coolAt = firing.expectedEnd === null ? null : toInstant(firing.expectedEnd);
  return laterEnd(question, kiln, { kilnFrom: toInstant(booking.startsAt), notFreeBefore: wanted, coolAt });
}

async function write(ctx: Ctx, firing: LockedFiring, end: LaterEnd) {
  const { tx } = ctx;
  const { firingId } = firing;
  await lapseJoining(ctx, firing, "the booking was lengthened");
  const standing = { firingId, standing: true };
  const unload = { startsAt: toDate(end.unloadFrom), endsAt: toDate(end.unloadTo) };
  const kilnTo = toDate(end.kilnTo);
  await tx.booking.updateMany({ where: { ...standing, purpose: "kiln" }, data: { endsAt: kilnTo } });
  await tx.booking.updateMany({
    where: { ...standing, purpose: "unload" },
    data: { ...unload, ...(end.trolleyId === null ? {} : { equipmentId: end.trolleyId }) },
  });
  await moveUnloading(ctx, firingId, end);
  // The new unloading waits for the load to be cool, so nothing is expected otherwise than booked any more.
  await tx.firing.updateMany({ where: { firingId }, data: { version: { increment: 1 }, expectedEnd: null } });
  return { kilnTo: kilnBooking(firing)?.endsAt.toISOString() ?? null };
}

/** The unloading lifts of a shared firing follow each other, in the order they were planned in. */
async function moveUnloading({ tx }: Ctx, firingId: string, end: LaterEnd): Promise<void> {
  const lifts = await tx.lift.findMany({ where: { firingId, standing: true, what: "unload" }, orderBy: [{ startsAt: "asc" }, { liftId: "asc" }] });
  let startMs = end.unloadFrom.epochMilliseconds;
  const last = lifts.at(-1);
  for (const { liftId, startsAt, endsAt } of lifts) {
    const endMs = liftId === last?.liftId ? end.unloadTo.epochMilliseconds : startMs + endsAt.getTime() - startsAt.getTime();
    await tx.lift.updateMany({ where: { liftId }, data: { startsAt: new Date(startMs), endsAt: new Date(endMs), trolleyId: end.trolleyId } });
    startMs = endMs;
  }
}

function kilnBooking(firing: LockedFiring) {
  return firing.bookings.find((booking) => booking.purpose === "kiln");
}
