import { TEMPLATE_VERSION } from "@/lib/domain/safety/template";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { Placed } from "@/lib/server/runs/place-run";
import { checkItemsJson } from "@/lib/server/runs/write-check-sheet";
import { bookingRows, bookingsStatement, liftRows, liftsStatement, purposesOf } from "@/lib/server/runs/write-run";

/** A casting that was asked for, with its run. */
export type NewFiring = { readonly planId: string; readonly firingId: string; readonly castingId: string; readonly memberId: string; readonly placed: Omit<Placed, "kiln"> };

/** So many together; a plan and its check sheet are some thirty kilobytes. */
const AT_ONCE = 100;

/** Everything that many new runs are, a statement for all rows of a kind; one run alone is written by `writeNewFiring`. Their castings' asks are met. */
export async function writeNewFirings(ctx: Pick<Ctx, "tx" | "who" | "now">, all: readonly NewFiring[]): Promise<void> {
  for (let from = 0; from < all.length; from += AT_ONCE) await writeSome(ctx, all.slice(from, from + AT_ONCE));
}

async function writeSome({ tx, who, now }: Pick<Ctx, "tx" | "who" | "now">, all: readonly NewFiring[]): Promise<void> {
  const { workshopId } = who;
  const at = toDate(now);
  const plans = JSON.stringify(all.map(({ planId, castingId, placed: { plan, planInput } }) => ({ planId, castingId, calculation: plan.calculation, inputs: planInput, outputs: plan })));
  await tx.$executeRaw`
    INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs, created_at)
    SELECT ${workshopId}::uuid, "planId", "castingId", calculation, inputs, outputs, ${at}::timestamptz
      FROM jsonb_to_recordset(${plans}::jsonb) AS p ("planId" uuid, "castingId" uuid, calculation text, inputs jsonb, outputs jsonb)`;
  const firings = JSON.stringify(all.map(({ placed: { run }, firingId, planId, castingId, memberId }) => ({ firingId, planId, castingId, memberId, purposes: purposesOf(run), heatingHours: run.heatingHours })));
  await tx.$executeRaw`
    WITH f AS (SELECT * FROM jsonb_to_recordset(${firings}::jsonb) AS f ("firingId" uuid, "planId" uuid, "castingId" uuid, "memberId" uuid, purposes text[], "heatingHours" float8)),
    firings AS (
      INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, purposes, heating_hours, created_at, status)
      SELECT ${workshopId}::uuid, "firingId", "planId", "memberId", purposes, "heatingHours", ${at}::timestamptz, 'planned' FROM f
    ), sheets AS (
      INSERT INTO check_sheet (workshop_id, firing_id, template_version) SELECT ${workshopId}::uuid, "firingId", ${TEMPLATE_VERSION}::text FROM f
    ), castings AS (
      INSERT INTO firing_casting (workshop_id, firing_id, casting_id, joined_at) SELECT ${workshopId}::uuid, "firingId", "castingId", ${at}::timestamptz FROM f
    )
    UPDATE ask a SET status = 'met', answer = ${`Booked by ${who.name}.`} FROM f WHERE a.workshop_id = ${workshopId}::uuid AND a.casting_id = f."castingId" AND a.status = 'open'`;
  await tx.$executeRaw(bookingsStatement(all.flatMap(({ firingId, castingId, placed: { run } }) => bookingRows({ workshopId, firingId, castingId }, run.bookings))));
  await tx.$executeRaw(liftsStatement(all.flatMap(({ firingId, castingId, placed: { run, plan } }) => liftRows({ workshopId, firingId, castingId }, plan, run.lifts))));
  const sheets = `[${all.map(({ firingId, placed: { plan, planInput } }) => `{"firingId":"${firingId}","items":${checkItemsJson(plan, planInput)}}`).join(",")}]`;
  await tx.$executeRaw`
    INSERT INTO check_item (workshop_id, firing_id, code, position, phase, text, why, source, level, scope, detail, forbids)
    SELECT ${workshopId}::uuid, s."firingId", i.code, i.position, i.phase, i.text, i.why, i.source, i.level, i.scope, i.detail, i.forbids
      FROM jsonb_to_recordset(${sheets}::jsonb) AS s ("firingId" uuid, items jsonb)
     CROSS JOIN LATERAL jsonb_to_recordset(s.items) AS i (code text, position smallint, phase text, text text, why text, source text, level text, scope text, detail text, forbids text)`;
}
