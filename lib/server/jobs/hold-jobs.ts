import { paths } from "@/lib/contracts/paths";
import { isOver, isToWarn } from "@/lib/domain/booking/hold";
import { showTime } from "@/lib/domain/time/show-time";
import { now, toDate, toInstant } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import { tellingFor } from "@/lib/server/jobs/telling-for";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

export type HoldJob = { readonly workshopId: string; readonly firingId: string };

/**
 * Frees what a hold kept, if its time is over and nobody confirmed it. Run it as often as you like, or never: nobody
 * counts a hold that is over.
 * @returns when to come again, if it is too early
 */
export async function lapseHold({ workshopId, firingId }: HoldJob): Promise<Date | undefined> {
  return inWorkshop(workshopId, async (tx) => {
    const telling = await tellingFor(tx, workshopId);
    if (telling === undefined) return undefined;
    await lockCalendar(telling);
    const still = await tx.firing.findFirst({ where: { firingId, status: "held" }, select: { heldUntil: true } });
    return still?.heldUntil ? new Date(Date.now() + Math.min(60_000, still.heldUntil.getTime() - now().epochMilliseconds + 1)) : undefined;
  });
}

/** Reminds the holder once, some hours before the end; never of a hold that was made for less than that. */
export async function warnOfLapse({ workshopId, firingId }: HoldJob): Promise<void> {
  await inWorkshop(workshopId, async (tx) => {
    const telling = await tellingFor(tx, workshopId);
    if (telling === undefined) return;
    await tx.$executeRaw`SELECT 1 FROM firing WHERE firing_id = ${firingId}::uuid FOR UPDATE`;
    const firing = await tx.firing.findFirst({
      where: { firingId, status: "held", holdWarnedAt: null },
      include: { plan: { select: { casting: { select: { title: true } } } }, bookings: { where: { standing: true, purpose: "kiln" }, include: { equipment: true } } },
    });
    const kiln = firing?.bookings[0];
    if (firing === null || firing.heldUntil === null || kiln === undefined) return;
    const until = toInstant(firing.heldUntil);
    const madeForLess = isToWarn(until, toInstant(firing.createdAt)) || isOver(until, toInstant(firing.createdAt));
    if (madeForLess || !isToWarn(until, telling.now)) return;
    await tx.firing.updateMany({ where: { firingId }, data: { holdWarnedAt: toDate(telling.now) } });
    const { timeZone } = telling.who;
    const text = `${kiln.equipment.name}, ${showTime(toInstant(kiln.startsAt), timeZone)}, is held for ${firing.plan.casting.title} only until ${showTime(until, timeZone)}.`;
    await tell(telling, { to: [firing.memberId], kind: "hold-lapsing", text, href: paths.firing(firingId) });
  });
}
