import { randomUUID } from "node:crypto";
import type pg from "pg";
import { DEMO_EQUIPMENT, DEMO_HOURS, DEMO_PEOPLE, DEMO_WORKSHOP } from "@/prisma/demo/workshop";
import { DEMO_PASSWORD } from "@/lib/contracts/demo-sign-ins";
import { hashPassword } from "@/lib/server/sign-in";
import type { Who } from "@/lib/server/who";
import type { DemoKey } from "@/prisma/demo/castings";

export type DemoPlace = {
  readonly people: ReadonlyMap<DemoKey, Who>;
  readonly equipment: ReadonlyMap<string, string>;
};

/** Whether anybody has an account here; then this is no empty database and the demo keeps away. */
export async function anybodyHere(client: pg.Client): Promise<boolean> {
  const { rows } = await client.query<{ n: number }>("SELECT count(*)::int AS n FROM person");
  return (rows[0]?.n ?? 0) > 0;
}

export async function isDemo(client: pg.Client): Promise<boolean> {
  const { rows } = await client.query("SELECT 1 FROM person WHERE email = $1", [DEMO_PEOPLE[0].email]);
  return rows.length > 0;
}

/** Workshop, people, equipment and hours, written by the database's owner in one transaction. */
export async function writeWorkshop(client: pg.Client): Promise<DemoPlace> {
  const workshopId = randomUUID();
  await client.query("BEGIN");
  await client.query("SELECT set_config('lehrbook.workshop', $1, true)", [workshopId]);
  await client.query("INSERT INTO workshop (workshop_id, name, time_zone, power_limit_kw) VALUES ($1, $2, $3, $4)", [
    workshopId, DEMO_WORKSHOP.name, DEMO_WORKSHOP.timeZone, DEMO_WORKSHOP.powerLimitKw,
  ]);
  for (const { weekday, opensMin, closesMin, hands } of DEMO_HOURS) {
    await client.query("INSERT INTO staffed_hours (workshop_id, weekday, opens_min, closes_min, hands) VALUES ($1, $2, $3, $4, $5)", [workshopId, weekday, opensMin, closesMin, hands]);
  }
  const people = await writePeople(client, workshopId);
  const equipment = new Map<string, string>();
  for (const { kind, name, limits } of DEMO_EQUIPMENT) {
    const equipmentId = randomUUID();
    await client.query("INSERT INTO equipment (workshop_id, equipment_id, kind, name, limits) VALUES ($1, $2, $3, $4, $5)", [workshopId, equipmentId, kind, name, JSON.stringify(limits)]);
    equipment.set(name, equipmentId);
  }
  await client.query("COMMIT");
  return { people, equipment };
}

async function writePeople(client: pg.Client, workshopId: string): Promise<Map<DemoKey, Who>> {
  const passwordHash = await hashPassword(DEMO_PASSWORD);
  const people = new Map<DemoKey, Who>();
  for (const { key, name, email, roles } of DEMO_PEOPLE) {
    const [personId, memberId] = [randomUUID(), randomUUID()];
    await client.query("INSERT INTO person (person_id, email, password_hash) VALUES ($1, $2, $3)", [personId, email, passwordHash]);
    await client.query("INSERT INTO member (workshop_id, member_id, person_id, name, email, roles) VALUES ($1, $2, $3, $4, $5, $6)", [workshopId, memberId, personId, name, email, [...roles]]);
    people.set(key, { personId, memberId, workshopId, workshopName: DEMO_WORKSHOP.name, timeZone: DEMO_WORKSHOP.timeZone, name, email, roles });
  }
  return people;
}
