import type { Temporal } from "temporal-polyfill";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { replaceRuns, type ReplacedRun } from "@/lib/server/runs/replace-runs";

/** When the steam-out of this run ended or will end, if it has begun: it then stays where it is. */
export function steamedOutAt(firing: Pick<LockedFiring, "bookings">, now: Temporal.Instant): Temporal.Instant | undefined {
  const steam = firing.bookings.find((booking) => booking.purpose === "steam-out");
  return steam !== undefined && steam.startsAt <= toDate(now) ? toInstant(steam.endsAt) : undefined;
}

export type Replaced = Pick<ReplacedRun, "run" | "plan" | "castingId"> & {
  /** Castings whose steam-out stays where it is booked. */
  readonly steamStays: ReadonlySet<string>;
};

/** Puts new rows in the place of the old ones, which stay on record as no longer standing. */
export async function replaceBookings(ctx: Ctx, firing: LockedFiring, { run, plan, steamStays, castingId }: Replaced): Promise<void> {
  const { firingId } = firing;
  const keptBookings = firing.bookings.filter((booking) => booking.purpose === "steam-out" && steamStays.has(booking.castingId ?? firing.plan.castingId));
  const castingIds = keptBookings.map((booking) => booking.castingId ?? firing.plan.castingId);
  const keptLifts = await ctx.tx.lift.findMany({ where: { firingId, standing: true, what: { in: ["to-steamer", "from-steamer"] }, castingId: { in: castingIds } }, select: { liftId: true } });
  await replaceRuns(ctx, [{ firingId, castingId, run, plan, keptBookings, keptLifts }]);
}
