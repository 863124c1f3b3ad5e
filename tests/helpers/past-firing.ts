import { randomUUID } from "node:crypto";
import type pg from "pg";
import type { MadeWorkshop } from "./scenario";

type PastFiringRows = {
  readonly kilnId?: string;
  /** Which of the kiln's past firings: the first began three years before `PAST_UNTIL`, each next one ten days later. */
  readonly nth: number;
  /** From start to opened. */
  readonly hours: number;
  /** What the kiln was booked for; as long as it took unless said, so that it was opened in time. */
  readonly bookedHours?: number;
  readonly status?: "started" | "opened" | "cancelled" | "released";
  readonly reservation?: object;
};

export const PAST_UNTIL = Date.parse("2026-11-01T00:00:00Z");
export const PAST_PROGRAM_HOURS = 100;
export const PAST_USUAL_HOURS = 10;
const MS_PER_HOUR = 3_600_000;

/**
 * A firing of long ago, of a program of 100 h with a usual margin of 10 h, written by the owner.
 * @returns the firing's id and when it was started and opened, ISO
 */
export async function writePastFiring(owner: pg.Client, made: MadeWorkshop, past: PastFiringRows) {
  const { workshopId, member, northKiln } = made;
  const [castingId, planId, firingId] = [randomUUID(), randomUUID(), randomUUID()];
  const { kilnId = northKiln.equipmentId, nth, hours, bookedHours = hours, status = "opened" } = past;
  const startMs = PAST_UNTIL - 3 * 365 * 24 * MS_PER_HOUR + nth * 240 * MS_PER_HOUR;
  const [from, opened, to] = [0, hours, bookedHours].map((after) => new Date(startMs + after * MS_PER_HOUR).toISOString());
  const reservation = past.reservation ?? { marginHours: PAST_USUAL_HOURS };
  const outputs = { firing: { hours: PAST_PROGRAM_HOURS, stages: [] }, reservation: { hours: PAST_PROGRAM_HOURS + PAST_USUAL_HOURS, ...reservation } };
  const over = status === "cancelled" || status === "released";
  await owner.query("BEGIN");
  await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, $4, '{}')", [workshopId, castingId, member.memberId, `Past ${nth}`]);
  await owner.query("INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) VALUES ($1, $2, $3, 'written', '{}', $4)", [workshopId, planId, castingId, JSON.stringify(outputs)]);
  await owner.query(
    "INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, status, purposes, heating_hours, started_at, opened_at) VALUES ($1, $2, $3, $4, $5, '{kiln}', 0, $6, $7)",
    [workshopId, firingId, planId, member.memberId, status, from, status === "opened" ? opened : null],
  );
  await owner.query("INSERT INTO firing_casting (workshop_id, firing_id, casting_id, standing) VALUES ($1, $2, $3, $4)", [workshopId, firingId, castingId, !over]);
  await owner.query(
    "INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at, standing) VALUES ($1, $2, $3, 'kiln', $4, $5, $6)",
    [workshopId, firingId, kilnId, from, to, !over],
  );
  await owner.query("COMMIT");
  return { firingId, startedAt: from ?? "", openedAt: opened ?? "" };
}
