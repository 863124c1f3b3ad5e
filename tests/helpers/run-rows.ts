import { randomUUID } from "node:crypto";
import type pg from "pg";
import type { MadeWorkshop } from "./scenario";

type RunRows = {
  /** Of the kiln's booking; ISO instants. */
  readonly from: string;
  readonly to: string;
  readonly title?: string;
  readonly status?: "planned" | "started" | "opened" | "cancelled" | "released";
};

/**
 * The least that stands for a run: a casting of the member, an empty plan, a firing and the north kiln's booking,
 * written by the owner. For tests that ask only what hangs on a kiln and when; its plan is none.
 * @returns the firing's id
 */
export async function writeRunRows(owner: pg.Client, made: MadeWorkshop, run: RunRows): Promise<string> {
  const { workshopId, member, northKiln } = made;
  const [castingId, planId, firingId] = [randomUUID(), randomUUID(), randomUUID()];
  const { title = "Low tide", status = "planned" } = run;
  const over = status === "cancelled" || status === "released";
  await owner.query("BEGIN");
  await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, $4, '{}')", [workshopId, castingId, member.memberId, title]);
  await owner.query("INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) VALUES ($1, $2, $3, 'none', '{}', '{}')", [workshopId, planId, castingId]);
  await owner.query(
    "INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, status, purposes, heating_hours) VALUES ($1, $2, $3, $4, $5, '{kiln}', 0)",
    [workshopId, firingId, planId, member.memberId, status],
  );
  await owner.query("INSERT INTO firing_casting (workshop_id, firing_id, casting_id, standing) VALUES ($1, $2, $3, $4)", [workshopId, firingId, castingId, !over]);
  await owner.query(
    "INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at, standing) VALUES ($1, $2, $3, 'kiln', $4, $5, $6)",
    [workshopId, firingId, northKiln.equipmentId, run.from, run.to, !over],
  );
  await owner.query("COMMIT");
  return firingId;
}
