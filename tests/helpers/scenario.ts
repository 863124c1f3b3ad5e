import { randomBytes, randomUUID } from "node:crypto";
import { hash } from "@node-rs/argon2";
import pg from "pg";
import type { EquipmentInput } from "@/lib/contracts/equipment";
import type { Role } from "@/lib/domain/access/roles";
import type { Kiln, Steamer, Trolley } from "@/lib/domain/booking/equipment";
import type { Who } from "@/lib/server/who";

/** Everybody in a made workshop signs in with this. Hashed as cheaply as argon2 allows: tests wait for it. */
export const SCENARIO_PASSWORD = "tide over saltmarsh";
const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };

export type MadeWorkshop = {
  readonly workshopId: string;
  readonly manager: Who;
  readonly member: Who;
  /** For clashes and for what one member must not do with another's work. */
  readonly otherMember: Who;
  readonly assistant: Who;
  readonly northKiln: Kiln;
  readonly southKiln: Kiln;
  readonly steamer: Steamer;
  readonly trolley: Trolley;
};

export type WorkshopWish = {
  readonly name?: string;
  readonly timeZone?: string;
  readonly powerLimitKw?: number;
  /** Staffed hours are Monday to Saturday, 09:00 to 18:00, with these many on duty; 3 unless said. */
  readonly hands?: number;
  readonly northKiln?: Partial<Kiln["limits"]>;
  readonly southKiln?: Partial<Kiln["limits"]>;
};

const NORTH_KILN = {
  insideMm: [700, 700, 620], wallClearanceMm: 40, headroomMm: 30, shelfLoadKg: 150, powerKw: 12, lossWPerK: 6,
  heatCapacityKJPerK: 55, maxC: 1000, controllerSegments: 32, minRateKPerH: 0.5, turnaroundHours: 2,
} as const;
const SOUTH_KILN = { ...NORTH_KILN, insideMm: [500, 500, 450], shelfLoadKg: 80, powerKw: 8, lossWPerK: 4, heatCapacityKJPerK: 32 } as const;
const STEAMER = { insideMm: [600, 600, 700], maxMouldKg: 120, powerKw: 6 } as const;
const TROLLEY = { ratedKg: 300, ownKg: 45 } as const;

/**
 * An invented workshop written straight into the database by its owner: a manager, two members, an assistant, two
 * kilns, a steamer and a trolley. Call it twice for a second, stranger workshop; people and names never collide.
 */
export async function makeWorkshop(ownerUrl: string, wish: WorkshopWish = {}): Promise<MadeWorkshop> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    return await write(client, wish);
  } finally {
    await client.end();
  }
}

async function write(client: pg.Client, wish: WorkshopWish): Promise<MadeWorkshop> {
  const workshop = { workshopId: randomUUID(), workshopName: wish.name ?? "Saltmarsh Glass Sheds", timeZone: wish.timeZone ?? "Europe/Copenhagen" };
  await client.query("INSERT INTO workshop (workshop_id, name, time_zone, power_limit_kw) VALUES ($1, $2, $3, $4)", [
    workshop.workshopId, workshop.workshopName, workshop.timeZone, wish.powerLimitKw ?? null,
  ]);
  await client.query(
    "INSERT INTO staffed_hours (workshop_id, weekday, opens_min, closes_min, hands) SELECT $1, weekday, 540, 1080, $2 FROM generate_series(1, 6) AS weekday",
    [workshop.workshopId, wish.hands ?? 3],
  );
  const passwordHash = await hash(SCENARIO_PASSWORD, CHEAP);
  const person = (name: string, ...roles: Role[]) => addPerson(client, workshop, passwordHash, name, roles);
  const kiln = (name: string, limits: Kiln["limits"]) => ({ kind: "kiln", name, limits, equipmentId: randomUUID() }) as const;
  const northKiln = kiln("North kiln", { ...NORTH_KILN, ...wish.northKiln });
  const southKiln = kiln("South kiln", { ...SOUTH_KILN, ...wish.southKiln });
  const steamer = { kind: "steamer", name: "Steamer", limits: STEAMER, equipmentId: randomUUID() } as const;
  const trolley = { kind: "trolley", name: "Blue trolley", limits: TROLLEY, equipmentId: randomUUID() } as const;
  for (const one of [northKiln, southKiln, steamer, trolley]) {
    await client.query("INSERT INTO equipment (workshop_id, equipment_id, kind, name, limits) VALUES ($1, $2, $3, $4, $5)", [
      workshop.workshopId, one.equipmentId, one.kind, one.name, JSON.stringify(one.limits),
    ]);
  }
  return {
    workshopId: workshop.workshopId,
    manager: await person("Marit Toft", "manager"),
    member: await person("Jonas Brink", "member"),
    otherMember: await person("Selma Krog", "member"),
    assistant: await person("Aksel Lund", "assistant"),
    northKiln, southKiln, steamer, trolley,
  };
}

type Place = Pick<Who, "workshopId" | "workshopName" | "timeZone">;

async function addPerson(client: pg.Client, place: Place, passwordHash: string, name: string, roles: readonly Role[]): Promise<Who> {
  const first = name.split(" ")[0]?.toLowerCase() ?? "somebody";
  const email = `${first}.${randomBytes(4).toString("hex")}@saltmarsh.example`;
  const [personId, memberId] = [randomUUID(), randomUUID()];
  await client.query("INSERT INTO person (person_id, email, password_hash) VALUES ($1, $2, $3)", [personId, email, passwordHash]);
  await client.query("INSERT INTO member (workshop_id, member_id, person_id, name, email, roles) VALUES ($1, $2, $3, $4, $5, $6)", [
    place.workshopId, memberId, personId, name, email, roles,
  ]);
  return { ...place, personId, memberId, name, email, roles };
}

/** Limits of each kind that the contract accepts, for tests that add equipment. */
export const SAMPLE_EQUIPMENT: Readonly<Record<EquipmentInput["kind"], EquipmentInput>> = {
  kiln: { kind: "kiln", name: "Attic kiln", limits: { ...NORTH_KILN, insideMm: [400, 400, 300] } },
  steamer: { kind: "steamer", name: "Small steamer", limits: { ...STEAMER, insideMm: [300, 300, 300] } },
  trolley: { kind: "trolley", name: "Red trolley", limits: TROLLEY },
};
