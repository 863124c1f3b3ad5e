import { randomUUID } from "node:crypto";
import type pg from "pg";
import { readCastingInput } from "@/lib/contracts/casting-input";
import type { Role } from "@/lib/domain/access/roles";
import type { KilnLimits } from "@/lib/domain/booking/equipment";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import type { Who } from "@/lib/server/who";
import { TEMPLATE_VERSION } from "@/lib/domain/safety/template";
import type { SeedRun } from "./seed-runs";

export type World = {
  readonly workshopId: string;
  readonly members: readonly Who[];
  readonly kilnIds: readonly string[];
  readonly steamerIds: readonly string[];
  readonly trolleyIds: readonly string[];
};

export type WorldWish = { readonly kilns: number; readonly steamers: number; readonly trolleys: number; readonly members: number };

const TIME_ZONE = "Europe/Copenhagen";
const KILN: KilnLimits = {
  insideMm: [700, 700, 620], wallClearanceMm: 40, headroomMm: 30, shelfLoadKg: 150, powerKw: 12, lossWPerK: 6,
  heatCapacityKJPerK: 55, maxC: 1000, controllerSegments: 32, minRateKPerH: 0.5, turnaroundHours: 2,
};
/** Of the rated power of all kilns together. */
const POWER_SHARE = 0.5;
const HEATING_HOURS = 30;

/** Four makes of kiln, so that a casting has four plans. */
function kilnLimits(i: number): KilnLimits {
  const make = i % 4;
  return { ...KILN, powerKw: KILN.powerKw - make, lossWPerK: KILN.lossWPerK + make / 4, heatCapacityKJPerK: KILN.heatCapacityKJPerK + 5 * make };
}

/** A piece that every kiln, steamer and trolley of the world takes. */
export function pebble(sizeMm = 80): CastingInput {
  const read = readCastingInput({
    glass: "lead-crystal-45", piece: { shape: "ball", sizeMm: [sizeMm] }, cooling: "all-round",
    mould: { wallMm: 30, plasterSilicaWater: [1, 1, 1] }, feeder: { diameterMm: 30, lengthMm: 40 }, stress: "careful",
  });
  if (!read.ok) throw new Error(read.problems[0].message);
  return read.value;
}

/** An invented workshop of any size, written by the owner of the tables. */
export async function writeWorld(owner: pg.Client, wish: WorldWish): Promise<World> {
  const workshopId = randomUUID();
  await owner.query("INSERT INTO workshop (workshop_id, name, time_zone, power_limit_kw) VALUES ($1, 'Bench', $2, $3)", [workshopId, TIME_ZONE, wish.kilns * KILN.powerKw * POWER_SHARE]);
  await owner.query(
    "INSERT INTO staffed_hours (workshop_id, weekday, opens_min, closes_min, hands) SELECT $1, weekday, 480, 1200, $2 FROM generate_series(1, 6) AS weekday",
    [workshopId, Math.min(50, 2 + 2 * (wish.trolleys + wish.steamers))],
  );
  const members: Who[] = [];
  for (let i = 0; i < wish.members; i += 1) members.push(await addMember(owner, workshopId, i));
  const add = async (kind: string, name: string, limits: object) => {
    const equipmentId = randomUUID();
    await owner.query("INSERT INTO equipment (workshop_id, equipment_id, kind, name, limits) VALUES ($1, $2, $3, $4, $5)", [workshopId, equipmentId, kind, name, JSON.stringify(limits)]);
    return equipmentId;
  };
  const all = async (count: number, kind: string, limits: (i: number) => object) => {
    const ids: string[] = [];
    for (let i = 0; i < count; i += 1) ids.push(await add(kind, `${kind} ${i + 1}`, limits(i)));
    return ids;
  };
  return {
    workshopId, members,
    kilnIds: await all(wish.kilns, "kiln", kilnLimits),
    steamerIds: await all(wish.steamers, "steamer", () => ({ insideMm: [600, 600, 700], maxMouldKg: 120, powerKw: 6 })),
    trolleyIds: await all(wish.trolleys, "trolley", () => ({ ratedKg: 300, ownKg: 45 })),
  };
}

async function addMember(owner: pg.Client, workshopId: string, i: number): Promise<Who> {
  const [personId, memberId] = [randomUUID(), randomUUID()];
  const [name, email] = [`Member ${i + 1}`, `member-${i + 1}-${workshopId.slice(0, 8)}@bench.example`];
  const roles: readonly Role[] = i === 0 ? ["manager", "member"] : ["member"];
  await owner.query("INSERT INTO person (person_id, email, password_hash) VALUES ($1, $2, 'none')", [personId, email]);
  await owner.query("INSERT INTO member (workshop_id, member_id, person_id, name, email, roles) VALUES ($1, $2, $3, $4, $5, $6)", [workshopId, memberId, personId, name, email, roles]);
  return { personId, memberId, workshopId, workshopName: "Bench", timeZone: TIME_ZONE, name, email, roles };
}

/**
 * Puts runs on the calendar as if they had been booked: firing, four bookings, four lifts, a check sheet each. Triggers and foreign
 * keys are left out for speed, which needs a superuser; constraints on overlap hold.
 */
export async function writeRuns(owner: pg.Client, world: World, runs: readonly SeedRun[], now: number): Promise<void> {
  const plans = await planEach(owner, world);
  await owner.query("SET session_replication_role = replica");
  for (let at = 0; at < runs.length; at += 5000) await writeSome(owner, world, plans, runs.slice(at, at + 5000), now);
  await owner.query("SET session_replication_role = DEFAULT");
  await owner.query("ANALYZE");
}

type KilnPlan = { readonly castingId: string; readonly planId: string };

/** One casting with one plan for every kiln; the seeded runs share them. */
async function planEach(owner: pg.Client, { workshopId, members, kilnIds }: World): Promise<readonly KilnPlan[]> {
  const plans: KilnPlan[] = [];
  for (const [i] of kilnIds.entries()) {
    const { turnaroundHours: _t, shelfLoadKg: _s, headroomMm: _h, wallClearanceMm: _w, ...kiln } = kilnLimits(i);
    const input: CastingInput = { ...pebble(), kiln };
    const plan = planFiring(input);
    if (!plan.ok) throw new Error(plan.problems[0].message);
    const [castingId, planId] = [randomUUID(), randomUUID()];
    await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, $4, $5)", [workshopId, castingId, members[0]?.memberId, `Pebble ${i}`, JSON.stringify(pebble())]);
    await owner.query("INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) VALUES ($1, $2, $3, $4, $5, $6)", [workshopId, planId, castingId, plan.value.calculation, JSON.stringify(input), JSON.stringify(plan.value)]);
    plans.push({ castingId, planId });
  }
  return plans;
}

const iso = (ms: number): string => new Date(ms).toISOString();

async function writeSome(owner: pg.Client, world: World, plans: readonly KilnPlan[], runs: readonly SeedRun[], now: number): Promise<void> {
  const { workshopId, kilnIds, steamerIds, trolleyIds, members } = world;
  const numbered = runs.map((run) => ({ ...run, firingId: randomUUID() }));
  const status = ({ load, fire }: SeedRun) => (fire[1] <= now ? "opened" : load[1] <= now ? "started" : "planned");
  await owner.query(
    `INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, status, purposes, heating_hours, started_at, opened_at)
     SELECT $1, f, p, $2, s, '{steam-out,load,kiln,unload}', $3, CASE WHEN s <> 'planned' THEN a END, CASE WHEN s = 'opened' THEN b END
       FROM unnest($4::uuid[], $5::uuid[], $6::text[], $7::timestamptz[], $8::timestamptz[]) AS t (f, p, s, a, b)`,
    [workshopId, members[0]?.memberId, HEATING_HOURS, numbered.map((run) => run.firingId), numbered.map((run) => plans[run.kiln]?.planId), numbered.map(status), numbered.map((run) => iso(run.fire[0])), numbered.map((run) => iso(run.unload[0]))],
  );
  // Without its items, which nothing looks up: but what is looked up in an empty table is planned as nobody's is.
  await owner.query("INSERT INTO check_sheet (workshop_id, firing_id, template_version) SELECT $1, f, $2 FROM unnest($3::uuid[]) AS t (f)", [workshopId, TEMPLATE_VERSION, numbered.map((run) => run.firingId)]);
  const bookings = numbered.flatMap(({ firingId, steam, load, fire, unload, kiln, steamer, trolleys }) => [
    [firingId, steamerIds[steamer], "steam-out", ...steam] as const,
    [firingId, trolleyIds[trolleys[0]], "load", ...load] as const,
    [firingId, kilnIds[kiln], "kiln", ...fire] as const,
    [firingId, trolleyIds[trolleys[1]], "unload", ...unload] as const,
  ]);
  await owner.query(
    `INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at)
     SELECT $1, f, e, p, a, b FROM unnest($2::uuid[], $3::uuid[], $4::text[], $5::timestamptz[], $6::timestamptz[]) AS t (f, e, p, a, b)`,
    [workshopId, bookings.map((row) => row[0]), bookings.map((row) => row[1]), bookings.map((row) => row[2]), bookings.map((row) => iso(row[3])), bookings.map((row) => iso(row[4]))],
  );
  const quarter = 15 * 60_000;
  const lifts = numbered.flatMap(({ firingId, kiln, steam, load, unload, trolleys }) => [
    [firingId, plans[kiln]?.castingId, null, "to-steamer", steam[0], steam[0] + quarter, 1] as const,
    [firingId, plans[kiln]?.castingId, null, "from-steamer", steam[1] - quarter, steam[1], 1] as const,
    [firingId, plans[kiln]?.castingId, trolleyIds[trolleys[0]], "load", ...load, 2] as const,
    [firingId, plans[kiln]?.castingId, trolleyIds[trolleys[1]], "unload", ...unload, 1] as const,
  ]);
  await owner.query(
    `INSERT INTO lift (workshop_id, firing_id, casting_id, trolley_id, what, starts_at, ends_at, kg, hands, mould_state, hot, wet, flag, from_place, to_place, why)
     SELECT $1, f, c, t, w, a, b, 20, h, 'wet', false, true, 'amber', 'Bench', 'Kiln', ''
       FROM unnest($2::uuid[], $3::uuid[], $4::uuid[], $5::text[], $6::timestamptz[], $7::timestamptz[], $8::int[]) AS t (f, c, t, w, a, b, h)`,
    [workshopId, lifts.map((row) => row[0]), lifts.map((row) => row[1]), lifts.map((row) => row[2]), lifts.map((row) => row[3]), lifts.map((row) => iso(row[4])), lifts.map((row) => iso(row[5])), lifts.map((row) => row[6])],
  );
}
