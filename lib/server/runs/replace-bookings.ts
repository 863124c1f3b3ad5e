import type { Temporal } from "temporal-polyfill";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import type { Placed } from "@/lib/server/runs/place-run";
import { writeBookings, writeLifts } from "@/lib/server/runs/write-run";

/** When the steam-out of this run ended or will end, if it has begun: it then stays where it is. */
export function steamedOutAt(firing: Pick<LockedFiring, "bookings">, now: Temporal.Instant): Temporal.Instant | undefined {
  const steam = firing.bookings.find((booking) => booking.purpose === "steam-out");
  return steam !== undefined && steam.startsAt <= toDate(now) ? toInstant(steam.endsAt) : undefined;
}

export type Replaced = Pick<Placed, "run" | "plan"> & {
  /** Castings whose steam-out stays where it is booked. */
  readonly steamStays: ReadonlySet<string>;
  /** The casting that the run is kept under from now on. */
  readonly castingId: string;
};

/** Puts new rows in the place of the old ones, which stay on record as no longer standing. */
export async function replaceBookings(ctx: Ctx, firing: LockedFiring, { run, plan, steamStays, castingId }: Replaced): Promise<void> {
  const { tx, who } = ctx;
  const { firingId } = firing;
  const of = { workshopId: who.workshopId, firingId, castingId };
  const stays = firing.bookings.filter((booking) => booking.purpose === "steam-out" && steamStays.has(booking.castingId ?? firing.plan.castingId));
  const lifts = { what: { in: ["to-steamer", "from-steamer"] }, castingId: { in: stays.map((booking) => booking.castingId ?? firing.plan.castingId) } };
  await tx.booking.updateMany({ where: { firingId, standing: true, bookingId: { notIn: stays.map(({ bookingId }) => bookingId) } }, data: { standing: false } });
  await tx.lift.updateMany({ where: { firingId, standing: true, NOT: lifts }, data: { standing: false } });
  await writeBookings(tx, of, run.bookings);
  await writeLifts(tx, of, plan, run.lifts);
  const purposes = [...stays.map(({ purpose }) => purpose), ...run.bookings.map((booking) => booking.purpose)];
  await tx.firing.updateMany({
    where: { firingId },
    data: { purposes, heatingHours: run.heatingHours, expectedEnd: null, version: { increment: 1 } },
  });
}
