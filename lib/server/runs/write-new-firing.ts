import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { TEMPLATE_VERSION } from "@/lib/domain/safety/template";
import type { Placed } from "@/lib/server/runs/place-run";
import { checkItemsJson } from "@/lib/server/runs/write-check-sheet";
import { bookingRows, bookingsStatement, liftRows, liftsStatement, purposesOf } from "@/lib/server/runs/write-run";
import { sendLater, sql, type Statements } from "@/lib/server/statements";

type OfFiring = {
  readonly workshopId: string;
  readonly planId: string;
  readonly firingId: string;
  readonly castingId: string;
  readonly memberId: string;
  /** Who answers the casting's open ask by this. */
  readonly metBy: string;
  readonly at: Date;
  /** Null for a run that is booked; a held one meets no ask. */
  readonly heldUntil: Date | null;
  /** The ask that a held one is offered to. */
  readonly askId: string | null;
};

/** A plan is kept in the process and never changes. */
const plans = new WeakMap<CastingPlan, string>();

function planJson(plan: CastingPlan): string {
  const json = plans.get(plan) ?? JSON.stringify(plan);
  plans.set(plan, json);
  return json;
}

/**
 * Everything that a new run is, in one statement: plan, firing, bookings, lifts and check sheet. Row by row through
 * the client it took a dozen, while others waited. Postgres refuses all of it when any part of it is taken.
 */
export async function writeNewFiring(tx: Statements, of: OfFiring, { run, plan, planInput }: Omit<Placed, "kiln">): Promise<void> {
  const { workshopId, planId, firingId, castingId, memberId, metBy, at, heldUntil, askId } = of;
  const bookings = bookingsStatement(bookingRows({ workshopId, firingId, castingId }, run.bookings));
  const lifts = liftsStatement(liftRows({ workshopId, firingId, castingId }, plan, run.lifts));
  await sendLater(tx, sql`
    /* prepared */ WITH plans AS (
      INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs, created_at)
      VALUES (${workshopId}::uuid, ${planId}::uuid, ${castingId}::uuid, ${plan.calculation}, ${JSON.stringify(planInput)}::jsonb, ${planJson(plan)}::jsonb, ${at})
    ), firings AS (
      INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, purposes, heating_hours, created_at, status, held_until, ask_id)
      VALUES (${workshopId}::uuid, ${firingId}::uuid, ${planId}::uuid, ${memberId}::uuid, ${purposesOf(run)}::text[], ${run.heatingHours}::float8, ${at}, ${heldUntil === null ? "planned" : "held"}, ${heldUntil}::timestamptz, ${askId}::uuid)
    ), castings AS (
      INSERT INTO firing_casting (workshop_id, firing_id, casting_id, joined_at) VALUES (${workshopId}::uuid, ${firingId}::uuid, ${castingId}::uuid, ${at})
    ), bookings AS (${bookings}
    ), lifts AS (${lifts}
    ), sheets AS (
      INSERT INTO check_sheet (workshop_id, firing_id, template_version) VALUES (${workshopId}::uuid, ${firingId}::uuid, ${TEMPLATE_VERSION})
    ), items AS (
      INSERT INTO check_item (workshop_id, firing_id, code, position, phase, text, why, source, level, scope, detail, forbids)
      SELECT ${workshopId}::uuid, ${firingId}::uuid, code, position, phase, text, why, source, level, scope, detail, forbids
        FROM jsonb_to_recordset(${checkItemsJson(plan, planInput)}::jsonb) AS i (code text, position smallint, phase text, text text, why text, source text, level text, scope text, detail text, forbids text)
    )
    UPDATE ask SET status = 'met', answer = ${`Booked by ${metBy}.`} WHERE workshop_id = ${workshopId}::uuid AND casting_id = ${castingId}::uuid AND status = 'open' AND ${heldUntil}::timestamptz IS NULL`);
}
