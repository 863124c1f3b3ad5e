import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const slab: CastingInput = {
  glass: "soda-lime-casting",
  piece: { shape: "brick", sizeMm: [200, 150, 100], waxKg: 2.8 },
  cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] },
  stress: "careful",
};

const database = await useFreshDatabase();
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { changeCasting } = await import("@/lib/server/commands/change-casting");
const { withdrawCasting } = await import("@/lib/server/commands/withdraw-casting");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { findTime } = await import("@/lib/server/queries/find-time");
const { closeDatabase } = await import("@/lib/server/db");
const shed = await makeWorkshop(database.ownerUrl);
const elsewhere = await makeWorkshop(database.ownerUrl);
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const described = (over: object = {}) => ({ title: "Tide bowl", input: slab, neededBy: "2027-03-14", requestKey: randomUUID(), ...over });

async function created(who = shed.member, over: object = {}): Promise<string> {
  const outcome = await createCasting(who, described(over));
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value.castingId;
}

async function rowOf(castingId: string) {
  const { rows } = await owner.query("SELECT *, needed_by::text AS day FROM casting WHERE casting_id = $1", [castingId]);
  return rows[0];
}

async function auditOf(castingId: string) {
  const { rows } = await owner.query("SELECT action, member_id, before, after FROM audit WHERE subject_id = $1 ORDER BY audit_id", [castingId]);
  return rows;
}

const change = (castingId: string, over: object = {}) => ({ castingId, version: 1, title: "Ebb bowl", input: slab, neededBy: null, ...over });

describe("describing a casting", () => {
  it("stores title, input and date for the person who described it, and says so in the record", async () => {
    const castingId = await created();
    expect(await rowOf(castingId)).toMatchObject({ title: "Tide bowl", input: slab, day: "2027-03-14", version: 1, member_id: shed.member.memberId });
    expect(await auditOf(castingId)).toEqual([
      { action: "create-casting", member_id: shed.member.memberId, before: null, after: { title: "Tide bowl", input: slab, neededBy: "2027-03-14" } },
    ]);
  });

  it("describes one casting when the button is pressed twice", async () => {
    const requestKey = randomUUID();
    const [first, second] = await Promise.all([created(shed.member, { requestKey }), created(shed.member, { requestKey })]);
    expect(second).toBe(first);
  });

  it("names every field that cannot be taken", async () => {
    const outcome = await createCasting(shed.member, described({ title: "  ", neededBy: "14 March", input: { ...slab, cooling: "below" } }));
    expect(outcome.ok || outcome.problems.map((problem) => problem.field)).toEqual(["title", "input.cooling", "neededBy"]);
  });

  it("refuses what could not be planned, naming field, value and range", async () => {
    const outcome = await createCasting(shed.member, described({ input: { ...slab, mould: { wallMm: 5, plasterSilicaWater: [1, 1, 1] } } }));
    expect(outcome).toMatchObject({ ok: false, problems: [{ field: "mould.wallMm", value: 5, allowed: "10 to 150 mm" }] });
  });

  it("is not for an assistant, nor for somebody who is not signed in", async () => {
    expect(await createCasting(shed.assistant, described())).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    expect(await createCasting(null, described())).toMatchObject({ ok: false, problems: [{ code: "not-signed-in" }] });
  });
});

describe("changing a casting", () => {
  it("writes the new description, counts the version up and keeps before and after", async () => {
    const castingId = await created();
    expect(await changeCasting(shed.member, change(castingId))).toEqual({ ok: true, value: { castingId, version: 2 } });
    expect(await rowOf(castingId)).toMatchObject({ title: "Ebb bowl", day: null, version: 2 });
    expect((await auditOf(castingId))[1]).toMatchObject({
      action: "change-casting",
      before: { title: "Tide bowl", neededBy: "2027-03-14" },
      after: { title: "Ebb bowl", neededBy: null },
    });
  });

  it("refuses when it was changed meanwhile, says which version stands, and writes nothing", async () => {
    const castingId = await created();
    await changeCasting(shed.member, change(castingId));
    const outcome = await changeCasting(shed.member, change(castingId, { title: "Late bowl" }));
    expect(outcome).toMatchObject({ ok: false, problems: [{ code: "changed-meanwhile", data: { version: 2 } }] });
    expect(await rowOf(castingId)).toMatchObject({ title: "Ebb bowl", version: 2 });
    expect(await auditOf(castingId)).toHaveLength(2);
  });

  it("lets one of two simultaneous changes win", async () => {
    const castingId = await created();
    const both = await Promise.all(["A", "B"].map((title) => changeCasting(shed.member, change(castingId, { title }))));
    expect(both.filter((outcome) => outcome.ok)).toHaveLength(1);
  });

  it("is allowed to the manager, and the owner is told", async () => {
    const castingId = await created();
    expect(await changeCasting(shed.manager, change(castingId))).toMatchObject({ ok: true });
    const { rows } = await owner.query("SELECT text FROM notice WHERE member_id = $1 AND href = $2", [shed.member.memberId, `/castings/${castingId}`]);
    expect(rows).toEqual([{ text: "Marit Toft changed your casting Ebb bowl." }]);
  });

  it("is refused to another member and unknown to another workshop", async () => {
    const castingId = await created();
    expect(await changeCasting(shed.otherMember, change(castingId))).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    expect(await changeCasting(elsewhere.manager, change(castingId))).toMatchObject({ ok: false, problems: [{ code: "not-found" }] });
    expect(await rowOf(castingId)).toMatchObject({ title: "Tide bowl", version: 1 });
  });
});

describe("withdrawing a casting", () => {
  it("takes it off and keeps what it was in the record", async () => {
    const castingId = await created();
    expect(await withdrawCasting(shed.member, { castingId })).toEqual({ ok: true, value: { castingId } });
    expect((await rowOf(castingId)).withdrawn_at).not.toBeNull();
    expect((await auditOf(castingId))[1]).toMatchObject({ action: "withdraw-casting", before: { title: "Tide bowl" } });
    expect(await changeCasting(shed.member, change(castingId))).toMatchObject({ ok: false, problems: [{ code: "not-found" }] });
  });

  it("is refused while a run stands for it, and allowed once the run is cancelled", async () => {
    const castingId = await created();
    const firingId = await bookedFiring(castingId);
    expect(await withdrawCasting(shed.member, { castingId })).toMatchObject({ ok: false, problems: [{ code: "run-stands", data: { firingId } }] });
    expect((await rowOf(castingId)).withdrawn_at).toBeNull();
    await owner.query(
      "WITH b AS (UPDATE booking SET standing = false WHERE firing_id = $1), c AS (UPDATE firing_casting SET standing = false WHERE firing_id = $1) UPDATE firing SET status = 'cancelled' WHERE firing_id = $1",
      [firingId],
    );
    expect(await withdrawCasting(shed.member, { castingId })).toMatchObject({ ok: true });
  });

  it("changing it is allowed while a run stands, and leaves the run's plan alone", async () => {
    const castingId = await created();
    const firingId = await bookedFiring(castingId);
    expect(await changeCasting(shed.member, change(castingId))).toMatchObject({ ok: true });
    const { rows } = await owner.query("SELECT p.inputs FROM firing f JOIN plan p USING (workshop_id, plan_id) WHERE f.firing_id = $1", [firingId]);
    expect(rows).toEqual([{ inputs: { as: "booked" } }]);
  });

  it("is refused to another member and unknown to another workshop", async () => {
    const castingId = await created();
    expect(await withdrawCasting(shed.otherMember, { castingId })).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    expect(await withdrawCasting(elsewhere.member, { castingId })).toMatchObject({ ok: false, problems: [{ code: "not-found" }] });
  });
});

describe("withdrawing a casting while its run is being booked", () => {
  it("leaves either the casting withdrawn or the run booked, never both", async () => {
    for (const withdrawFirst of [true, false, true, false]) {
      const castingId = await created();
      const offers = await findTime(shed.member, { castingId });
      const run = offers?.offers.kilns[0]?.runs[0];
      if (run === undefined) throw new Error("no run was offered");
      const book = () => bookRun(shed.member, { castingId, kilnId: run.kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom && { steamFrom: run.steamFrom }), requestKey: randomUUID() });
      const withdraw = () => withdrawCasting(shed.member, { castingId });
      const outcomes = await Promise.all(withdrawFirst ? [withdraw(), book()] : [book(), withdraw()]);
      expect(outcomes.map((outcome) => outcome.ok).sort()).toEqual([false, true]);
    }
  });
});

/** A run of the kiln alone, written by hand; each one a month after the last. */
let month = 0;
async function bookedFiring(castingId: string): Promise<string> {
  const [planId, firingId] = [randomUUID(), randomUUID()];
  month += 1;
  const ids = [shed.workshopId, castingId, planId, shed.member.memberId, firingId, shed.northKiln.equipmentId, month];
  await owner.query(
    `WITH ids AS (SELECT $1::uuid AS w, $2::uuid AS c, $3::uuid AS p, $4::uuid AS m, $5::uuid AS f, $6::uuid AS e, timestamptz '2027-01-04' + $7 * interval '30 days' AS s),
      plan AS (INSERT INTO plan (workshop_id, plan_id, casting_id, calculation, inputs, outputs) SELECT w, p, c, 'test', '{"as":"booked"}', '{}' FROM ids),
      firing AS (INSERT INTO firing (workshop_id, firing_id, plan_id, member_id, purposes, heating_hours) SELECT w, f, p, m, '{kiln}', 10 FROM ids),
      link AS (INSERT INTO firing_casting (workshop_id, firing_id, casting_id) SELECT w, f, c FROM ids)
     INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at) SELECT w, f, e, 'kiln', s, s + interval '7 days' FROM ids`,
    ids,
  );
  return firingId;
}
