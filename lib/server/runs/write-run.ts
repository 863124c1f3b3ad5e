import type { RunBooking, RunLift, RunProposal } from "@/lib/domain/booking/run-plan";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { toDate } from "@/lib/server/clock";
import { sql, type Sql } from "@/lib/server/statements";

type OfFiring = { readonly workshopId: string; readonly firingId: string };

type OfCasting = OfFiring & { readonly castingId: string };

/** Rows of any number of runs, in one statement of one value: the ORM takes a value for each column of each row. */
export function bookingsStatement(rows: ReturnType<typeof bookingRows>): Sql {
  return sql`
    INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, casting_id, starts_at, ends_at)
    SELECT "workshopId", "firingId", "equipmentId", purpose, "castingId", "startsAt", "endsAt"
      FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS b ("workshopId" uuid, "firingId" uuid, "equipmentId" uuid, purpose text, "castingId" uuid, "startsAt" timestamptz, "endsAt" timestamptz)`;
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

/** The same of lifts. */
export function liftsStatement(rows: ReturnType<typeof liftRows>): Sql {
  return sql`
    INSERT INTO lift (workshop_id, firing_id, casting_id, trolley_id, what, starts_at, ends_at, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why)
    SELECT "workshopId", "firingId", "castingId", "trolleyId", what, "startsAt", "endsAt", kg, hands, "mouldState", hot, wet, flag, "fromPlace", "toPlace", why
      FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS l ("workshopId" uuid, "firingId" uuid, "castingId" uuid, "trolleyId" uuid, what text, "startsAt" timestamptz, "endsAt" timestamptz,
             kg float8, hands smallint, "mouldState" text, hot boolean, wet boolean, flag text, "fromPlace" text, "toPlace" text, why text)`;
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
