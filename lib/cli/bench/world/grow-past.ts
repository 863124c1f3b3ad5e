import type pg from "pg";
import type { World } from "./write-world";

/** The runs of the last `days` days, to be copied; a run that reaches over the edge would overlap its own copy and is none of them. Their bookings. */
export async function chooseLately(owner: pg.Client, { workshopId }: World, days: number): Promise<number> {
  await owner.query(`CREATE TEMP TABLE lately AS
    SELECT f.firing_id FROM firing f JOIN booking b USING (workshop_id, firing_id) WHERE workshop_id = '${workshopId}' GROUP BY 1
    HAVING min(b.starts_at) > date_trunc('day', now()) - interval '${days} days' AND max(b.ends_at) < date_trunc('day', now())`);
  const { rows } = await owner.query<{ n: number }>("SELECT count(*)::int AS n FROM lately JOIN booking USING (firing_id)");
  return rows[0]?.n ?? 0;
}

/**
 * Puts the chosen runs once more before them, shifted by whole stretches, for each copy from `first` to `last`: a workshop
 * that has gone on like this for years. As fast as the database copies rows: triggers and foreign keys are left out,
 * which needs a superuser; constraints on overlap hold.
 */
export async function growPast(owner: pg.Client, days: number, first: number, last: number): Promise<void> {
  await owner.query("SET session_replication_role = replica");
  for (let copy = first; copy <= last; copy += 1) {
    const id = `md5(t.firing_id::text || ${copy})::uuid`;
    const at = (column: string) => `t.${column} - interval '${copy * days} days'`;
    await owner.query(`INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, status, purposes, heating_hours, started_at, opened_at)
      SELECT workshop_id, ${id}, plan_id, member_id, 'opened', purposes, heating_hours, ${at("started_at")}, ${at("opened_at")} FROM lately JOIN firing t USING (firing_id)`);
    await owner.query(`INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, casting_id, starts_at, ends_at)
      SELECT workshop_id, ${id}, equipment_id, purpose, casting_id, ${at("starts_at")}, ${at("ends_at")} FROM lately JOIN booking t USING (firing_id)`);
    await owner.query(`INSERT INTO lift (workshop_id, firing_id, casting_id, trolley_id, what, starts_at, ends_at, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why)
      SELECT workshop_id, ${id}, casting_id, trolley_id, what, ${at("starts_at")}, ${at("ends_at")}, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why FROM lately JOIN lift t USING (firing_id)`);
  }
  await owner.query("SET session_replication_role = DEFAULT");
  await owner.query("VACUUM ANALYZE");
}
