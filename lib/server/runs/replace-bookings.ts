import type { Temporal } from "temporal-polyfill";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import type { Placed } from "@/lib/server/runs/place-run";
import { writeBookings, writeLifts } from "@/lib/server/runs/write-run";

/** When the steam-out of this run ended or will end, if it has begun: it then stays where it is. */
export function steamedOutAt(firing: LockedFiring, now: Temporal.Instant): Temporal.Instant | undefined {
  const steam = firing.bookings.find((booking) => booking.purpose === "steam-out");
  return steam !== undefined && steam.startsAt <= toDate(now) ? toInstant(steam.endsAt) : undefined;
}

/** Puts new rows in the place of the old ones, which stay on record as no longer standing. */
export async function replaceBookings(ctx: Ctx, firing: LockedFiring, { run, plan }: Placed, steamStays: boolean): Promise<void> {
  const { tx, who } = ctx;
  const { firingId, plan: { castingId } } = firing;
  const of = { workshopId: who.workshopId, firingId };
  const kept = steamStays ? ["steam-out"] : [];
  const keptLifts = steamStays ? ["to-steamer", "from-steamer"] : [];
  await tx.booking.updateMany({ where: { firingId, standing: true, purpose: { notIn: kept } }, data: { standing: false } });
  await tx.lift.updateMany({ where: { firingId, standing: true, what: { notIn: keptLifts } }, data: { standing: false } });
  await writeBookings(tx, of, run.bookings);
  await writeLifts(tx, { ...of, castingId }, plan, run.lifts);
  const purposes = [...kept, ...run.bookings.map((booking) => booking.purpose)];
  await tx.firing.updateMany({
    where: { firingId },
    data: { purposes, heatingHours: run.heatingHours, expectedEnd: null, version: { increment: 1 } },
  });
}

