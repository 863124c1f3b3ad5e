import { randomUUID } from "node:crypto";
import type pg from "pg";
import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";
import type { Who } from "@/lib/server/who";

export type FiringWish = {
  readonly owner: Who;
  readonly title?: string;
  readonly status?: "planned" | "started" | "opened";
  /** What the run holds, each an ISO instant from and to. A kiln is a must. */
  readonly bookings: readonly { readonly purpose: "steam-out" | "load" | "kiln" | "unload"; readonly equipmentId: string; readonly from: string; readonly to: string }[];
};

const stage = (name: StageName, hours: number, toC: number): Stage => ({ stage: name, hours, toC, rateKPerH: 0, why: "written by hand" });

/** 144 h: shorter than any booking of a week, so that a bar has something to wait for. */
export const WRITTEN_STAGES: readonly Stage[] = [
  stage("Dry", 24, 120), stage("Climb", 12, 820), stage("Flow", 6, 820), stage("Soak", 12, 480), stage("Slow cool", 60, 380), stage("Run-down", 30, 25),
];

/** A run written straight into the database by its owner, at exactly these instants, whatever the hours and lifts. */
export async function writeFiring(owner: pg.Client, { owner: who, title = "Tide bowl", status = "planned", bookings }: FiringWish): Promise<string> {
  const [w, castingId, planId, firingId] = [who.workshopId, randomUUID(), randomUUID(), randomUUID()];
  const outputs = { firing: { stages: WRITTEN_STAGES }, reservation: { hours: 144 } };
  await owner.query("BEGIN");
  await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, $4, '{}')", [w, castingId, who.memberId, title]);
  await owner.query("INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) VALUES ($1, $2, $3, 'written', '{}', $4)", [w, planId, castingId, JSON.stringify(outputs)]);
  await owner.query("INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, status, purposes, heating_hours) VALUES ($1, $2, $3, $4, $5, $6, 42)", [
    w, firingId, planId, who.memberId, status, bookings.map((b) => b.purpose),
  ]);
  await owner.query("INSERT INTO firing_casting (workshop_id, firing_id, casting_id) VALUES ($1, $2, $3)", [w, firingId, castingId]);
  for (const { purpose, equipmentId, from, to } of bookings) {
    await owner.query("INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at) VALUES ($1, $2, $3, $4, $5, $6)", [w, firingId, equipmentId, purpose, from, to]);
  }
  await owner.query("COMMIT");
  return firingId;
}
