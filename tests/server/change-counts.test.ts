import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { setExpectedEnd } = await import("@/lib/server/commands/set-expected-end");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { endOutage } = await import("@/lib/server/commands/end-outage");
const { bookedRun, later, must } = await import("@/tests/helpers/booking");
const { movedRun } = await import("@/tests/helpers/moved-run");

let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function booked() {
  shed = await makeWorkshop(database.ownerUrl);
  return bookedRun(shed.member, shed.northKiln.equipmentId);
}

type Count = { readonly what: string; readonly entry_id: string; readonly sequence: number; readonly changed_at: Date; readonly standing: boolean };

/** Of every booking and lift of a firing, the row that counts: what stands, or what stood last. */
async function counts(firingId: string): Promise<ReadonlyMap<string, Count>> {
  const { rows } = await owner.query<Count>(
    `SELECT * FROM (SELECT 'booking ' || purpose AS what, entry_id, sequence, changed_at, standing FROM booking WHERE firing_id = $1
                    UNION ALL SELECT 'lift ' || what, entry_id, sequence, changed_at, standing FROM lift WHERE firing_id = $1) AS all_of_it
      ORDER BY what, standing, sequence`,
    [firingId],
  );
  return new Map(rows.map((row) => [row.what, row] as const));
}

const sequences = async (firingId: string) => [...new Set([...(await counts(firingId)).values()].map(({ sequence }) => sequence))];

describe("the count of an entry's changes", () => {
  it("begins at nought, each entry called by the id of its first row", async () => {
    const { firingId } = await booked();
    expect(await sequences(firingId)).toEqual([0]);
    const own = await owner.query("SELECT 1 FROM booking WHERE firing_id = $1 AND entry_id = booking_id", [firingId]);
    expect(own.rows).toHaveLength(4);
  });

  it("goes up by one with each move, and the entries keep their names although the rows are new", async () => {
    const { firingId } = await booked();
    const first = await counts(firingId);
    for (const times of [1, 2, 3]) {
      await movedRun(shed.member, firingId, shed.northKiln.equipmentId);
      const moved = await counts(firingId);
      for (const [what, { entry_id, sequence, standing, changed_at }] of moved) {
        expect({ what, entry_id, sequence, standing }).toEqual({ what, entry_id: first.get(what)?.entry_id, sequence: times, standing: true });
        expect(changed_at.getTime()).toBeGreaterThan(first.get(what)?.changed_at.getTime() ?? Infinity);
      }
    }
  });

  it("goes on over a move to another kiln, and back", async () => {
    const { firingId } = await booked();
    const name = (await counts(firingId)).get("booking kiln")?.entry_id;
    await movedRun(shed.member, firingId, shed.southKiln.equipmentId);
    await movedRun(shed.member, firingId, shed.northKiln.equipmentId);
    expect((await counts(firingId)).get("booking kiln")).toMatchObject({ entry_id: name, sequence: 2, standing: true });
  });

  it("goes up where a lengthened run changed, and stays where it did not", async () => {
    const { firingId } = await booked();
    const { rows } = await owner.query("SELECT ends_at FROM booking WHERE firing_id = $1 AND purpose = 'kiln'", [firingId]);
    must(await lengthenBooking(shed.member, { firingId, kilnTo: later(rows[0].ends_at.toISOString(), 1) }));
    const after = await counts(firingId);
    expect(after.get("booking kiln")?.sequence).toBe(1);
    expect(after.get("booking unload")?.sequence).toBe(1);
    expect(after.get("lift unload")?.sequence).toBe(1);
    expect(after.get("booking steam-out")?.sequence).toBe(0);
    expect(after.get("lift load")?.sequence).toBe(0);
  });

  it("goes up when a run is cancelled or released, and stays when only a word on it is said", async () => {
    const { firingId } = await booked();
    const { rows } = await owner.query("SELECT ends_at FROM booking WHERE firing_id = $1 AND purpose = 'kiln'", [firingId]);
    must(await setExpectedEnd(shed.manager, { firingId, at: later(rows[0].ends_at.toISOString(), 1), reason: "It cools slowly." }));
    expect(await sequences(firingId)).toEqual([0]);
    must(await cancelRun(shed.member, { firingId }));
    expect(await sequences(firingId)).toEqual([1]);
    const other = await booked();
    must(await releaseRun(shed.manager, { firingId: other.firingId, reason: "The kiln is wanted elsewhere." }));
    expect(await sequences(other.firingId)).toEqual([1]);
  });

  it("is the database's own: whatever a statement says, and whoever makes it", async () => {
    const { firingId } = await booked();
    const before = await counts(firingId);
    const write = (set: string) => inWorkshop(shed.workshopId, (tx) => tx.$executeRawUnsafe(`UPDATE booking SET ${set} WHERE firing_id = '${firingId}'`));
    await write("sequence = 99, entry_id = gen_random_uuid(), changed_at = '2000-01-01'");
    await write("starts_at = starts_at");
    expect(await counts(firingId)).toEqual(before);
    await owner.query("UPDATE booking SET sequence = 0, ends_at = ends_at + interval '15 minutes' WHERE firing_id = $1 AND purpose = 'steam-out'", [firingId]);
    expect((await counts(firingId)).get("booking steam-out")).toMatchObject({ sequence: 1, entry_id: before.get("booking steam-out")?.entry_id });
  });

  it("is kept of outages as well", async () => {
    shed = await makeWorkshop(database.ownerUrl);
    const { outageId } = must(await beginOutage(shed.manager, { equipmentId: shed.northKiln.equipmentId, from: "", to: "", reason: "A broken element." }));
    const sequence = async () => (await owner.query("SELECT sequence FROM outage WHERE outage_id = $1", [outageId])).rows[0].sequence;
    expect(await sequence()).toBe(0);
    must(await endOutage(shed.manager, { outageId }));
    expect(await sequence()).toBe(1);
  });
});
