import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SAMPLE_EQUIPMENT, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { atInstant } = await import("@/lib/server/clock");
const { closeDatabase } = await import("@/lib/server/db");
const { addClosure } = await import("@/lib/server/commands/add-closure");
const { addEquipment } = await import("@/lib/server/commands/add-equipment");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { changeEquipment } = await import("@/lib/server/commands/change-equipment");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { endOutage } = await import("@/lib/server/commands/end-outage");
const { removeClosure } = await import("@/lib/server/commands/remove-closure");
const { restoreEquipment } = await import("@/lib/server/commands/restore-equipment");
const { retireEquipment } = await import("@/lib/server/commands/retire-equipment");
const { setHoldLimit } = await import("@/lib/server/commands/set-hold-limit");
const { setInductions } = await import("@/lib/server/commands/set-inductions");
const { setPowerLimit } = await import("@/lib/server/commands/set-power-limit");
const { setStaffedHours } = await import("@/lib/server/commands/set-staffed-hours");
const { lookForOffers } = await import("@/lib/server/jobs/look-for-offers");
const { describedCasting, must } = await import("@/tests/helpers/booking");

const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;
const MONDAY = Temporal.Instant.from("2027-03-01T09:00:00Z");
const at = <T>(hours: number, work: () => Promise<T>) => atInstant(MONDAY.add({ hours }), work);
const idOf = async (what: "outage" | "closure") => (await owner.query(`SELECT ${what}_id AS id FROM ${what} WHERE workshop_id = $1`, [shed.workshopId])).rows[0].id as string;
const jobs = async () => (await owner.query("SELECT 1 FROM graphile_worker._private_jobs WHERE key = $1", [`offers:${shed.workshopId}`])).rowCount;
const noJobs = () => owner.query("DELETE FROM graphile_worker._private_jobs WHERE key = $1", [`offers:${shed.workshopId}`]);
const offers = async () => (await owner.query("SELECT ask_id, status FROM firing WHERE workshop_id = $1 AND ask_id IS NOT NULL", [shed.workshopId])).rows;

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  must(await at(0, () => retireEquipment(shed.manager, { equipmentId: shed.southKiln.equipmentId, reason: "One kiln is enough here." })));
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const WEEK = [1, 2, 3, 4, 5, 6].map((weekday) => ({ weekday, opens: "09:00", closes: "18:00", hands: 3 }));
const north = (change: object) => {
  const { equipmentId, kind, name, limits } = shed.northKiln;
  return changeEquipment(shed.manager, { equipmentId, kind, name, limits, ...change });
};
const outage = () => beginOutage(shed.manager, { equipmentId: shed.northKiln.equipmentId, from: "2027-03-01T11:00", to: "2027-06-01T10:00", reason: "New elements go in." });
const closure = () => addClosure(shed.manager, { from: "2027-03-08", to: "2027-06-01", reason: "The floor is laid anew." });
const retired = () => retireEquipment(shed.manager, { equipmentId: shed.northKiln.equipmentId, reason: "Its door does not close." });

/** What keeps an ask from being met by any kiln before its date, and the change that lets it be met. */
const CAUSES: readonly (readonly [name: string, blocks: () => Promise<unknown>, frees: () => Promise<unknown>])[] = [
  ["changed staffed hours", () => setStaffedHours(shed.manager, { weekly: [] }), () => setStaffedHours(shed.manager, { weekly: WEEK })],
  ["a removed closure", closure, async () => removeClosure(shed.manager, { closureId: await idOf("closure") })],
  ["an ended outage", outage, async () => endOutage(shed.manager, { outageId: await idOf("outage") })],
  ["added equipment", retired, () => addEquipment(shed.manager, { ...SAMPLE_EQUIPMENT.kiln, limits: shed.southKiln.limits })],
  ["restored equipment", retired, () => restoreEquipment(shed.manager, { equipmentId: shed.northKiln.equipmentId })],
  ["changed limits of a kiln", () => north({ limits: { ...shed.northKiln.limits, maxC: 500 } }), () => north({})],
  ["an inspection that is done", () => north({ inspectionDue: "2027-03-02" }), () => north({ inspectionDue: null })],
  ["an induction", () => north({ needsInduction: true }), () => setInductions(shed.manager, { memberId: shed.member.memberId, kilnIds: [shed.northKiln.equipmentId] })],
  ["a kiln that needs no induction any more", () => north({ needsInduction: true }), () => north({ needsInduction: false })],
  ["a changed power limit", () => setPowerLimit(shed.manager, { kw: 4 }), () => setPowerLimit(shed.manager, { kw: 40 })],
];

async function asked(): Promise<string> {
  const castingId = await describedCasting(shed.member, "Gull");
  return must(await createAsk(shed.member, { castingId, fromDate: "2027-03-08", neededBy: "2027-04-20", importance: 2, note: "" })).askId;
}

const done = (outcome: unknown) => expect(outcome).toMatchObject({ ok: true });

describe("an ask that cannot be met gets its offer", () => {
  it.each(CAUSES)("after %s, by a job that the change itself adds", async (_name, blocks, frees) => {
    const askId = await at(0, asked);
    done(await at(1, blocks));
    await at(2, () => lookForOffers(shed.workshopId));
    expect(await offers()).toEqual([]);
    await noJobs();
    done(await at(3, frees));
    expect(await jobs()).toBe(1);
    await at(4, () => lookForOffers(shed.workshopId));
    expect(await offers()).toEqual([{ ask_id: askId, status: "held" }]);
  });
});

describe("a change that frees nothing", () => {
  it("adds no offer where it might have freed something", async () => {
    await at(0, asked);
    done(await at(1, outage));
    done(await at(1, closure));
    done(await at(1, () => setPowerLimit(shed.manager, { kw: 40 })));
    await noJobs();
    done(await at(3, async () => removeClosure(shed.manager, { closureId: await idOf("closure") })));
    done(await at(3, () => setPowerLimit(shed.manager, { kw: 60 })));
    expect(await jobs()).toBe(1);
    await at(4, () => lookForOffers(shed.workshopId));
    expect(await offers()).toEqual([]);
  });

  it("is not even looked at where it cannot", async () => {
    await at(0, asked);
    done(await at(1, outage));
    await noJobs();
    done(await at(3, () => setHoldLimit(shed.manager, { holdsEach: 3 })));
    done(await at(3, () => addClosure(shed.manager, { from: "2027-03-09", reason: "Inventory." })));
    done(await at(3, () => setInductions(shed.manager, { memberId: shed.member.memberId, kilnIds: [] })));
    expect(await jobs()).toBe(0);
  });
});
