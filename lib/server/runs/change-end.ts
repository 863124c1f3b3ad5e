import type { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { LaterEnd } from "@/lib/domain/booking/lengthen";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate, toInstant } from "@/lib/server/clock";
import { NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { equipmentOf, loadEquipment } from "@/lib/server/rows/equipment";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { horizonFrom, loadRunQuestion } from "@/lib/server/runs/run-question";
import { tell } from "@/lib/server/tell";

/** A booked kiln whose end may be changed, and the calendar around it without this firing. */
export type OpenEnd = { readonly kiln: Kiln; readonly kilnFrom: Temporal.Instant; readonly booked: Temporal.Instant; readonly question: RunQuestion };

async function openEnd({ tx, who, now }: Ctx, firing: LockedFiring): Promise<Outcome<OpenEnd>> {
  const booking = kilnOf(firing);
  if (booking === undefined || (firing.status !== "planned" && firing.status !== "started")) {
    return refuse({ code: "not-running", field: "firingId", message: `This firing is ${firing.status}; the end of its booking cannot be changed.` });
  }
  const kiln = equipmentOf(booking.equipment);
  if (kiln.kind !== "kiln") throw new Error(`booking ${booking.bookingId} is of a ${kiln.kind}, not of a kiln`);
  const kilnFrom = toInstant(booking.startsAt);
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
    steamedOutAt: kilnFrom,
  });
  return ok({ kiln, kilnFrom, booked: toInstant(booking.endsAt), question });
}

type AskedEnd = { readonly firingId: string; readonly reason?: string | undefined };

export type EndChange = {
  /** What happened to the booking, for whoever waits for an answer to join: "the booking was lengthened". */
  readonly because: string;
  readonly newEnd: (open: OpenEnd, firing: LockedFiring) => Outcome<LaterEnd>;
  /** What the others in it read after the name of who did it. */
  readonly told: (end: LaterEnd, kiln: Kiln, title: string) => string;
};

/** Changes the end of a firing's kiln time, for those in it and the manager, with its record, and tells the others. */
export async function changeEnd(ctx: Ctx, { firingId, reason }: AskedEnd, { because, newEnd, told }: EndChange): Promise<Outcome<{ readonly firingId: string; readonly kilnTo: string }>> {
  await lockCalendar(ctx);
  const firing = await lockFiring(ctx.tx, firingId);
  if (firing === null) return refuse(NO_SUCH_FIRING);
  if (!isIn(firing, ctx.who.memberId) && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  const open = await openEnd(ctx, firing);
  if (!open.ok) return open;
  const end = newEnd(open.value, firing);
  if (!end.ok) return end;
  await writeEnd(ctx, firing, end.value, because);
  const after = { kilnTo: end.value.kilnTo.toString(), unloadFrom: end.value.unloadFrom.toString() };
  await ctx.audit({ subject: "firing", subjectId: firingId, before: { kilnTo: open.value.booked.toString() }, after, ...(reason ? { reason } : {}) });
  const others = othersIn(firing, ctx.who.memberId);
  if (others.length > 0) {
    const text = `${ctx.who.name} ${told(end.value, open.value.kiln, titleOf(firing.plan))}`;
    await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
  }
  return ok({ firingId, kilnTo: after.kilnTo });
}

/** Moves the end of the kiln's booking and the unloading to it; the rest of the run stays. `because` is told to whoever waits for an answer to join. */
async function writeEnd(ctx: Ctx, firing: LockedFiring, end: LaterEnd, because: string): Promise<void> {
  const { tx } = ctx;
  const { firingId } = firing;
  await lapseJoining(ctx, firing, because);
  const standing = { firingId, standing: true };
  const unload = { startsAt: toDate(end.unloadFrom), endsAt: toDate(end.unloadTo) };
  await tx.booking.updateMany({ where: { ...standing, purpose: "kiln" }, data: { endsAt: toDate(end.kilnTo) } });
  await tx.booking.updateMany({
    where: { ...standing, purpose: "unload" },
    data: { ...unload, ...(end.trolleyId === null ? {} : { equipmentId: end.trolleyId }) },
  });
  await moveUnloading(ctx, firingId, end);
  // The new unloading waits for the load to be cool, so nothing is expected otherwise than booked any more.
  await tx.firing.updateMany({ where: { firingId }, data: { version: { increment: 1 }, expectedEnd: null } });
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
