import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SAMPLE_EQUIPMENT, type MadeWorkshop } from "@/tests/helpers/scenario";
import { writeRunRows } from "@/tests/helpers/run-rows";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { addEquipment } = await import("@/lib/server/commands/add-equipment");
const { changeEquipment } = await import("@/lib/server/commands/change-equipment");
const { retireEquipment } = await import("@/lib/server/commands/retire-equipment");
const { restoreEquipment } = await import("@/lib/server/commands/restore-equipment");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { endOutage } = await import("@/lib/server/commands/end-outage");
const { loadEquipment } = await import("@/lib/server/rows/equipment");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});

type Answer = { ok: true } | { ok: false; problems: readonly { code: string; message: string }[] };
const codeOf = (outcome: Answer) => (outcome.ok ? "ok" : outcome.problems[0]?.code);
const messageOf = (outcome: Answer) => (outcome.ok ? "" : (outcome.problems[0]?.message ?? ""));
const record = () => auditRows(database.ownerUrl, made.workshopId);
const names = async () => (await inWorkshop(made.workshopId, loadEquipment)).map((one) => one.name);
/** A wall-clock time of the workshop, some whole days from now. */
const wall = (days: number, clock = "12:00") => `${new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10)}T${clock}`;
const north = () => made.northKiln.equipmentId;

describe("adding equipment", () => {
  it.each(Object.values(SAMPLE_EQUIPMENT))("puts a $kind into use, recorded with its limits", async (input) => {
    expect(codeOf(await addEquipment(made.manager, input))).toBe("ok");
    expect(await names()).toContain(input.name);
    expect(await record()).toMatchObject([{ action: "add-equipment", member_id: made.manager.memberId, after: { kind: input.kind, limits: input.limits } }]);
  });

  it("refuses a name that is taken, in use or retired, and limits of another kind", async () => {
    await retireEquipment(made.manager, { equipmentId: made.trolley.equipmentId, reason: "bent" });
    for (const name of [made.northKiln.name, made.trolley.name]) {
      expect(messageOf(await addEquipment(made.manager, { ...SAMPLE_EQUIPMENT.kiln, name }))).toContain(`"${name}"`);
    }
    expect(codeOf(await addEquipment(made.manager, { ...SAMPLE_EQUIPMENT.kiln, kind: "trolley" }))).not.toBe("ok");
    expect((await record()).map((row) => row.action)).toEqual(["retire-equipment"]);
  });
});

describe("changing equipment", () => {
  it("is recorded with the limits before and after", async () => {
    const { equipmentId, kind, name, limits } = made.northKiln;
    const outcome = await changeEquipment(made.manager, { equipmentId, kind, name, limits: { ...limits, maxC: 900 } });
    expect(outcome).toEqual({ ok: true, value: { name, standingRuns: 0 } });
    expect(await record()).toMatchObject([{ before: { limits: { maxC: 1000 } }, after: { limits: { maxC: 900 } } }]);
  });

  it("counts the runs that were booked with the old limits", async () => {
    await writeRunRows(owner, made, { from: "2030-01-07T08:00:00Z", to: "2030-01-12T08:00:00Z" });
    const { equipmentId, kind, name, limits } = made.northKiln;
    expect(await changeEquipment(made.manager, { equipmentId, kind, name, limits })).toMatchObject({ value: { standingRuns: 1 } });
  });

  it("refuses another kind, a taken name and another workshop's equipment", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    const asKiln = (equipmentId: string, name = "New name") => changeEquipment(made.manager, { ...SAMPLE_EQUIPMENT.kiln, name, equipmentId });
    expect(codeOf(await asKiln(made.steamer.equipmentId))).toBe("kind-stays");
    expect(codeOf(await asKiln(north(), made.southKiln.name))).toBe("name-taken");
    expect(codeOf(await asKiln(other.northKiln.equipmentId))).toBe("not-found");
    expect(await record()).toEqual([]);
  });
});

describe("retiring equipment", () => {
  const retire = (equipmentId = north()) => retireEquipment(made.manager, { equipmentId, reason: "lining worn out" });

  it("takes it out of use, once, and it can be put back", async () => {
    expect(codeOf(await retire())).toBe("ok");
    expect(await names()).not.toContain("North kiln");
    expect(codeOf(await retire())).toBe("already-retired");
    expect(codeOf(await restoreEquipment(made.manager, { equipmentId: north() }))).toBe("ok");
    expect(codeOf(await restoreEquipment(made.manager, { equipmentId: north() }))).toBe("not-retired");
    expect(await names()).toContain("North kiln");
    expect(await record()).toMatchObject([{ action: "retire-equipment", reason: "lining worn out" }, { action: "restore-equipment" }]);
  });

  it("is refused while a booking hangs on it, naming whose it is; the other equipment is free to go", async () => {
    await writeRunRows(owner, made, { from: "2030-01-07T08:00:00Z", to: "2030-01-12T08:00:00Z", title: "Tall heron" });
    const refused = await retire();
    expect(codeOf(refused)).toBe("still-booked");
    expect(messageOf(refused)).toContain("Tall heron of Jonas Brink (kiln, Mon 7 Jan, 09:00 to Sat 12 Jan, 09:00)");
    expect(codeOf(await retire(made.southKiln.equipmentId))).toBe("ok");
  });

  it("is allowed when all its bookings are past or were given up", async () => {
    await writeRunRows(owner, made, { from: "2024-01-08T08:00:00Z", to: "2024-01-12T08:00:00Z" });
    await writeRunRows(owner, made, { from: "2030-01-07T08:00:00Z", to: "2030-01-12T08:00:00Z", status: "cancelled" });
    expect(codeOf(await retire())).toBe("ok");
  });

  it("needs a reason, and does not find another workshop's equipment", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await retireEquipment(made.manager, { equipmentId: north(), reason: " " }))).toBe("out-of-range");
    expect(codeOf(await retire(other.northKiln.equipmentId))).toBe("not-found");
    expect(codeOf(await restoreEquipment(made.manager, { equipmentId: other.northKiln.equipmentId }))).toBe("not-found");
  });
});

describe("an outage", () => {
  const out = (times: { from?: string; to?: string } = {}, equipmentId = north()) =>
    beginOutage(made.manager, { equipmentId, reason: "element broken", ...times });

  it("may begin now and last until further notice; ending it ends it now", async () => {
    const begun = await out();
    expect(begun).toMatchObject({ ok: true, value: { name: "North kiln", touched: [] } });
    const outageId = begun.ok ? begun.value.outageId : "";
    expect(await endOutage(made.manager, { outageId })).toMatchObject({ ok: true, value: { withdrawn: false } });
    expect(codeOf(await endOutage(made.manager, { outageId }))).toBe("outage-over");
    expect(await record()).toMatchObject([
      { action: "begin-outage", subject_id: north(), after: { outageId, to: null }, reason: "element broken" },
      { action: "end-outage", before: { to: null }, after: { outageId } },
    ]);
  });

  it("that has not begun is withdrawn when it is ended", async () => {
    const begun = await out({ from: wall(10), to: wall(12) });
    const outageId = begun.ok ? begun.value.outageId : "";
    expect(await endOutage(made.manager, { outageId })).toMatchObject({ ok: true, value: { withdrawn: true } });
    expect(codeOf(await endOutage(made.manager, { outageId }))).toBe("outage-over");
  });

  it("takes its times from the workshop's clock", async () => {
    await out({ from: "2030-01-14T09:30", to: "2030-07-14T09:30" });
    const { rows } = await owner.query("SELECT starts_at, ends_at FROM outage WHERE workshop_id = $1", [made.workshopId]);
    expect(rows).toEqual([{ starts_at: new Date("2030-01-14T08:30:00Z"), ends_at: new Date("2030-07-14T07:30:00Z") }]);
  });

  it("over standing bookings is entered, says which runs it touches and tells their members", async () => {
    const firingId = await writeRunRows(owner, made, { from: "2030-01-07T08:00:00Z", to: "2030-01-12T08:00:00Z", title: "Tall heron" });
    const begun = await out({ from: "2030-01-10T12:00", to: "2030-01-11T12:00" });
    expect(begun).toMatchObject({ ok: true, value: { touched: [{ firingId, title: "Tall heron", memberName: "Jonas Brink" }] } });
    const { rows } = await owner.query("SELECT text, href FROM notice WHERE member_id = $1", [made.member.memberId]);
    expect(rows).toEqual([{ text: expect.stringContaining("North kiln is out of service during your run of Tall heron"), href: `/firings/${firingId}` }]);
  });

  it("that only touches a booking's end or start touches no run", async () => {
    await writeRunRows(owner, made, { from: "2030-01-07T08:00:00Z", to: "2030-01-12T08:00:00Z" });
    const before = await out({ from: "2030-01-05T09:00", to: "2030-01-07T09:00" });
    const after = await out({ from: "2030-01-12T09:00", to: "2030-01-13T09:00" });
    expect([before, after]).toMatchObject([{ value: { touched: [] } }, { value: { touched: [] } }]);
  });

  it("is refused with its end before its start, at it, in the past, or at a time the clocks skip", async () => {
    const codes = await Promise.all(
      [
        { from: wall(3), to: wall(2) },
        { from: wall(3), to: wall(3) },
        { from: wall(-3), to: wall(-2) },
        { from: "2030-03-31T02:30" },
        { from: wall(1), to: "2030-03-31T02:30" },
        { from: "soon" },
      ].map(async (times) => codeOf(await out(times))),
    );
    expect(codes).toEqual(["end-before-start", "end-before-start", "is-over", "no-such-time", "no-such-time", "not-a-time"]);
    expect(await record()).toEqual([]);
  });

  it("is refused over another outage of the same equipment, naming it; beside it and elsewhere it stands", async () => {
    await out({ from: wall(10), to: wall(12) });
    const over = await out({ from: wall(11), to: wall(13) });
    expect(codeOf(over)).toBe("already-out");
    expect(messageOf(over)).toContain("element broken");
    expect(codeOf(await out({ from: wall(9) }))).toBe("already-out");
    expect(codeOf(await out({ from: wall(12), to: wall(13) }))).toBe("ok");
    expect(codeOf(await out({ from: wall(11), to: wall(13) }, made.southKiln.equipmentId))).toBe("ok");
  });

  it("is entered once when two managers enter it at the same instant", async () => {
    const codes = (await Promise.all([out(), out()])).map(codeOf);
    expect(codes.sort()).toEqual(["already-out", "ok"]);
  });

  it("is not found for another workshop's equipment or outage, nor for retired equipment", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    const theirs = await beginOutage(other.manager, { equipmentId: other.northKiln.equipmentId, reason: "element broken" });
    expect(codeOf(await out({}, other.northKiln.equipmentId))).toBe("not-found");
    expect(codeOf(await endOutage(made.manager, { outageId: theirs.ok ? theirs.value.outageId : "" }))).toBe("not-found");
    await retireEquipment(made.manager, { equipmentId: north(), reason: "worn out" });
    expect(codeOf(await out())).toBe("retired");
  });
});
