import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { wholeGround } = await import("@/lib/server/rows/kept-ground");
const { loadGround } = await import("@/lib/server/runs/ground");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const NOW = Temporal.Now.instant();
const LATER = NOW.add({ hours: 1 });
const place = () => ({ workshopId: made.workshopId, timeZone: made.manager.timeZone });
const ground = (from = NOW) => inWorkshop(made.workshopId, (tx) => wholeGround(tx, place(), from));
const write = (text: string, ...values: readonly unknown[]) => owner.query(text, [made.workshopId, ...values]);

describe("what runs stand on", () => {
  it("is read once and kept as it is, for every kiln and member", async () => {
    const first = await ground();
    expect(first.equipment.map(({ name }) => name).sort()).toEqual(["Blue trolley", "North kiln", "South kiln", "Steamer"]);
    expect(await ground(LATER)).toBe(first);
    const of = await inWorkshop(made.workshopId, (tx) => loadGround(tx, place(), { from: NOW, kilnId: made.southKiln.equipmentId }));
    expect(of.equipment.map(({ name }) => name)).toEqual(["South kiln", "Steamer", "Blue trolley"]);
    expect(of.hours).toBe(first.hours);
  });

  it.each<[what: string, text: string, values: () => readonly unknown[]]>([
    ["a piece's limits", "UPDATE equipment SET limits = limits || '{\"turnaroundHours\": 5}' WHERE workshop_id = $1 AND kind = 'kiln'", () => []],
    ["a piece that is retired", "UPDATE equipment SET retired_at = now() WHERE workshop_id = $1 AND kind = 'steamer'", () => []],
    ["what is learned of a kiln", "UPDATE equipment SET record_version = record_version + 1 WHERE workshop_id = $1 AND kind = 'kiln'", () => []],
    ["staffed hours", "DELETE FROM staffed_hours WHERE workshop_id = $1 AND weekday = 6", () => []],
    ["a closure", "INSERT INTO closure (workshop_id, from_date, to_date, reason) VALUES ($1, '2027-07-01', '2027-07-20', 'Holidays')", () => []],
    ["an outage", "INSERT INTO outage (workshop_id, equipment_id, starts_at, reason) VALUES ($1, $2, now(), 'A burnt element')", () => [made.northKiln.equipmentId]],
    ["the electrician's limit", "UPDATE workshop SET power_limit_kw = 11 WHERE workshop_id = $1", () => []],
  ])("is read anew after %s", async (_what, text, values) => {
    const before = await ground();
    await write(text, ...values());
    const after = await ground();
    expect(after).not.toBe(before);
    expect(after).not.toEqual(before);
    expect(await ground()).toBe(after);
  });

  it("forgets what was seen in a transaction that came to nothing", async () => {
    const before = await ground();
    const undone = inWorkshop(made.workshopId, async (tx) => {
      await tx.$executeRaw`UPDATE workshop SET power_limit_kw = 3 WHERE workshop_id = ${made.workshopId}::uuid`;
      expect((await wholeGround(tx, place(), NOW)).powerLimitKw).toBe(3);
      throw new Error("undone");
    });
    await expect(undone).rejects.toThrow("undone");
    await write("UPDATE workshop SET power_limit_kw = 4 WHERE workshop_id = $1");
    expect((await ground()).powerLimitKw).toBe(4);
    await write("UPDATE workshop SET power_limit_kw = NULL WHERE workshop_id = $1");
    expect(await ground()).toEqual(before);
  });

  it("holds outages of an earlier clock when one is asked for, and none that ended before", async () => {
    await write("INSERT INTO outage (workshop_id, equipment_id, starts_at, ends_at, reason) VALUES ($1, $2, $3, $4, 'Rewired')", made.northKiln.equipmentId, NOW.subtract({ hours: 50 }).toString(), NOW.subtract({ hours: 40 }).toString());
    expect((await ground()).outages).toEqual([]);
    expect((await ground(NOW.subtract({ hours: 45 }))).outages).toHaveLength(1);
    const of = await inWorkshop(made.workshopId, (tx) => loadGround(tx, place(), { from: NOW }));
    expect(of.outages).toEqual([]);
  });

  it("names who was not shown a kiln, as soon as it asks for that and until they were", async () => {
    const shown = async () => (await inWorkshop(made.workshopId, (tx) => loadGround(tx, place(), { from: NOW, ownerId: made.member.memberId }))).notShown;
    expect(await shown()).toBeUndefined();
    await write("UPDATE equipment SET needs_induction = true WHERE workshop_id = $1 AND equipment_id = $2", made.northKiln.equipmentId);
    expect(await shown()).toEqual({ person: made.member.name, kilnIds: new Set([made.northKiln.equipmentId]) });
    await write("INSERT INTO induction (workshop_id, member_id, equipment_id, given_by, given_at) VALUES ($1, $2, $3, $4, now())", made.member.memberId, made.northKiln.equipmentId, made.manager.memberId);
    expect(await shown()).toBeUndefined();
  });
});
