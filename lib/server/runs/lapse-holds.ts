import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { tell, type Telling } from "@/lib/server/tell";

/**
 * Frees all that is still held although its time is over, and tells whose it was. Called behind `lockCalendar` alone.
 * A hold that is confirmed at the same instant is decided by its row: whoever locks it first is right.
 */
export async function lapseHolds(telling: Telling): Promise<void> {
  const { tx, now } = telling;
  const over = await tx.$queryRaw<{ firing_id: string }[]>`
    UPDATE firing SET status = 'lapsed', version = version + 1 WHERE status = 'held' AND held_until <= ${toDate(now)} RETURNING firing_id`;
  for (const { firing_id: firingId } of over) await free(telling, firingId);
}

async function free(telling: Telling, firingId: string): Promise<void> {
  const { tx, who, now } = telling;
  const firing = await tx.firing.findFirstOrThrow({
    where: { firingId },
    include: { plan: { select: { castingId: true, casting: { select: { title: true } } } }, bookings: { where: { standing: true, purpose: "kiln" }, include: { equipment: true } } },
  });
  const standing = { firingId, standing: true };
  await tx.booking.updateMany({ where: standing, data: { standing: false } });
  await tx.lift.updateMany({ where: standing, data: { standing: false } });
  await tx.firingCasting.updateMany({ where: standing, data: { standing: false } });
  const kiln = firing.bookings[0];
  const until = firing.heldUntil === null ? now : toInstant(firing.heldUntil);
  await tx.audit.create({
    data: { workshopId: who.workshopId, at: toDate(now), action: "lapse-hold", subject: "firing", subjectId: firingId, before: { status: "held", heldUntil: until.toString() }, after: { status: "lapsed" } },
  });
  const when = kiln === undefined ? "" : ` in ${kiln.equipment.name}, ${showTime(toInstant(kiln.startsAt), who.timeZone)},`;
  const text = `The run held for ${firing.plan.casting.title}${when} lapsed ${showTime(until, who.timeZone)}.`;
  await tell(telling, { to: [firing.memberId], kind: "hold-lapsed", text, href: paths.findTime(firing.plan.castingId) });
}
