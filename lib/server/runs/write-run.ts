import type { RunBooking, RunLift, RunProposal } from "@/lib/domain/booking/run-plan";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

type OfFiring = { readonly workshopId: string; readonly firingId: string };

type OfCasting = OfFiring & { readonly castingId: string };

/** All bookings of one run; Postgres refuses the whole transaction when any of them is taken. A steam-out is of one casting, `castingId` unless it says another. */
export async function writeBookings(tx: Tx, { workshopId, firingId, castingId }: OfCasting, bookings: readonly RunBooking[]): Promise<void> {
  await tx.booking.createMany({ data: bookingRows({ workshopId, firingId, castingId }, bookings) });
}

export function bookingRows({ workshopId, firingId, castingId }: OfCasting, bookings: readonly RunBooking[]) {
  return bookings.map(({ equipmentId, purpose, start, end, castingId: own = castingId }) => ({
    workshopId,
    firingId,
    equipmentId,
    purpose,
    castingId: purpose === "steam-out" ? own : null,
    startsAt: toDate(start),
    endsAt: toDate(end),
  }));
}

export async function writeLifts(tx: Tx, of: OfCasting, plan: CastingPlan, lifts: readonly RunLift[]): Promise<void> {
  await tx.lift.createMany({ data: liftRows(of, plan, lifts) });
}

export function liftRows(of: OfCasting, plan: CastingPlan, lifts: readonly RunLift[]) {
  return lifts.map(({ start, end, ...lift }) => ({
    ...of,
    ...lift,
    startsAt: toDate(start),
    endsAt: toDate(end),
    why: plan.lifts.find((planned) => planned.what === lift.what && planned.castingId === lift.castingId)?.why ?? "",
  }));
}

/** What a firing must keep booked as long as it stands; the database checks it at every commit. */
export function purposesOf(run: RunProposal): string[] {
  return run.bookings.map((booking) => booking.purpose);
}

/** How a run reads in the record. */
export function runForRecord(run: RunProposal) {
  return {
    kilnId: run.kilnId,
    kilnFrom: run.kilnFrom.toString(),
    kilnTo: run.kilnTo.toString(),
    readyAt: run.readyAt.toString(),
    bookings: run.bookings.map(({ purpose, equipmentId, start, end }) => ({
      purpose,
      equipmentId,
      from: start.toString(),
      to: end.toString(),
    })),
  };
}
