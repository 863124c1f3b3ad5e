import type { Ctx } from "@/lib/server/command";
import type { Placed } from "@/lib/server/runs/place-run";
import { bookingRows, bookingsStatement, liftRows, liftsStatement } from "@/lib/server/runs/write-run";

export type ReplacedRun = Pick<Placed, "run" | "plan"> & {
  readonly firingId: string;
  /** The casting that the run is kept under from now on. */
  readonly castingId: string;
  /** What of it stays where it is. */
  readonly keptBookings: readonly { readonly bookingId: string; readonly purpose: string }[];
  readonly keptLifts: readonly { readonly liftId: string }[];
};

/** Puts the new rows of several runs in the place of their old ones, which stay on record as no longer standing; a row of each kind at once. */
export async function replaceRuns({ tx, who }: Pick<Ctx, "tx" | "who">, runs: readonly ReplacedRun[]): Promise<void> {
  if (runs.length === 0) return;
  const { workshopId } = who;
  const ids = runs.map(({ firingId }) => firingId);
  await tx.booking.updateMany({ where: { firingId: { in: ids }, standing: true, bookingId: { notIn: runs.flatMap(({ keptBookings }) => keptBookings.map(({ bookingId }) => bookingId)) } }, data: { standing: false } });
  await tx.lift.updateMany({ where: { firingId: { in: ids }, standing: true, liftId: { notIn: runs.flatMap(({ keptLifts }) => keptLifts.map(({ liftId }) => liftId)) } }, data: { standing: false } });
  const of = ({ firingId, castingId }: ReplacedRun) => ({ workshopId, firingId, castingId });
  await tx.$executeRaw(bookingsStatement(runs.flatMap((one) => bookingRows(of(one), one.run.bookings))));
  await tx.$executeRaw(liftsStatement(runs.flatMap((one) => liftRows(of(one), one.plan, one.run.lifts))));
  const changed = runs.map(({ firingId, keptBookings, run }) => ({ firingId, heatingHours: run.heatingHours, purposes: [...keptBookings, ...run.bookings].map(({ purpose }) => purpose) }));
  await tx.$executeRaw`
    UPDATE firing f SET purposes = n.purposes, heating_hours = n."heatingHours", expected_end = NULL, version = f.version + 1
      FROM jsonb_to_recordset(${JSON.stringify(changed)}::jsonb) AS n ("firingId" uuid, "heatingHours" float8, purposes text[])
     WHERE f.workshop_id = ${workshopId}::uuid AND f.firing_id = n."firingId"`;
}
