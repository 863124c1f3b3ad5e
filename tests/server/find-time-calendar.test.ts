import fc from "fast-check";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SpanList } from "@/lib/domain/booking/taken-calendar";
import { useFreshDatabase } from "@/tests/helpers/database";
import { writeRunRows } from "@/tests/helpers/run-rows";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { bookedRun } = await import("@/tests/helpers/booking");
const { atIso } = await import("@/lib/server/runs/at-iso");
const { loadCalendar } = await import("@/lib/server/rows/taken-calendar");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

let made: MadeWorkshop;
let mine: string;
beforeAll(async () => {
  made = await makeWorkshop(database.ownerUrl, { powerLimitKw: 100 });
  mine = (await bookedRun(made.member, made.northKiln.equipmentId, "Low tide")).firingId;
  await bookedRun(made.otherMember, made.southKiln.equipmentId, "Ebb");
  await bookedRun(made.member, made.northKiln.equipmentId, "Flood");
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const now = () => Temporal.Now.instant();
const load = (from = now(), without?: string) => inWorkshop(made.workshopId, (tx) => loadCalendar(tx, from, without));
const pairs = (lists: readonly SpanList[] = []) => lists.flatMap(({ starts, ends }) => Array.from(starts, (start, i) => [start, ends[i]])).sort(([a = 0], [b = 0]) => a - b);

type Row = { readonly equipment_id: string; readonly from: Date; readonly to: Date };
/** Row by row, nothing packed. */
async function plainly(without = "00000000-0000-0000-0000-000000000000") {
  const { rows } = await owner.query<Row>(
    `SELECT b.equipment_id, coalesce((SELECT l.starts_at FROM booking l WHERE l.firing_id = b.firing_id AND l.purpose = 'load' AND l.standing AND b.purpose = 'kiln'), b.starts_at) AS "from", b.ends_at AS "to"
       FROM booking b WHERE b.workshop_id = $1 AND b.standing AND b.ends_at > now() AND b.firing_id <> $2 ORDER BY 2`,
    [made.workshopId, without],
  );
  return new Map(rows.map(({ equipment_id: id }) => [id, rows.filter((row) => row.equipment_id === id)]));
}

describe("the calendar packed as numbers", () => {
  it.each([["whole", undefined], ["without the run that is moved", true]] as const)("holds every booking of every piece, %s", async (_what, without) => {
    const left = without ? mine : undefined;
    const { busy } = await load(now(), left);
    const expected = await plainly(left);
    expect([...busy.keys()].sort()).toEqual([...expected.keys()].sort());
    for (const [id, rows] of expected) expect(pairs(busy.get(id))).toEqual(rows.map((row) => [row.from.getTime(), row.to.getTime()]));
  });

  it("holds every lift with its hands and every heating with its kilowatts", async () => {
    const { lifts, heating } = await load();
    const wanted = await owner.query("SELECT starts_at, ends_at, hands FROM lift WHERE workshop_id = $1 AND standing ORDER BY starts_at", [made.workshopId]);
    expect(pairs([lifts])).toEqual(wanted.rows.map((row) => [row.starts_at.getTime(), row.ends_at.getTime()]));
    expect([...lifts.amounts].reduce((a, b) => a + b, 0)).toBe(wanted.rows.reduce((sum, row) => sum + row.hands, 0));
    expect([...heating.amounts].sort((a, b) => a - b)).toEqual([8, 12, 12]);
    const { rows } = await owner.query("SELECT b.starts_at, f.heating_hours FROM booking b JOIN firing f USING (workshop_id, firing_id) WHERE workshop_id = $1 AND b.purpose = 'kiln' ORDER BY 1", [made.workshopId]);
    expect(pairs([heating])).toEqual(rows.map((row) => [row.starts_at.getTime(), row.starts_at.getTime() + Math.round(row.heating_hours * 3600) * 1000]));
  });

  it("leaves out what is over, but not a firing that is over its time and unopened, or said to be late", async () => {
    const hours = (n: number) => now().add({ hours: n });
    const other = await makeWorkshop(database.ownerUrl);
    const { northKiln, workshopId } = other;
    const busyOf = async () => pairs((await inWorkshop(workshopId, (tx) => loadCalendar(tx, now()))).busy.get(northKiln.equipmentId));
    const firingId = await writeRunRows(owner, other, { from: hours(-50).toString(), to: hours(-2).toString(), status: "planned" });
    expect(await busyOf()).toEqual([]);
    await owner.query("UPDATE firing SET status = 'started' WHERE firing_id = $1", [firingId]);
    const [[, overdue = 0] = []] = await busyOf();
    expect(overdue - Date.now()).toBeGreaterThan(23 * 3_600_000);
    const late = hours(100);
    await owner.query("UPDATE firing SET expected_end = $2 WHERE firing_id = $1", [firingId, late.toString()]);
    expect((await busyOf())[0]?.[1]).toBe(late.epochMilliseconds);
  });
});

it("writes instants as Temporal does", () => {
  fc.assert(fc.property(fc.integer({ min: 0, max: 4e12 }), (ms) => { expect(atIso(ms)).toBe(Temporal.Instant.fromEpochMilliseconds(ms).toString()); }));
  for (const ms of [0, 1, 10, 100, 999, 1000, 600_000, 4_000_000_010]) expect(atIso(ms)).toBe(Temporal.Instant.fromEpochMilliseconds(ms).toString());
});
