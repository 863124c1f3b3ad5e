import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { addClosure } = await import("@/lib/server/commands/add-closure");
const { changeEquipment } = await import("@/lib/server/commands/change-equipment");
const { changeRoles } = await import("@/lib/server/commands/change-roles");
const { NotAllowed } = await import("@/lib/server/query");
const { loadRecordNames } = await import("@/lib/server/rows/record-names");
const { workshopRecord } = await import("@/lib/server/queries/workshop-record");
const { bookedRun, describedCasting } = await import("@/tests/helpers/booking");
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
  const { equipmentId, kind, name, limits } = made.northKiln;
  await changeEquipment(made.manager, { equipmentId, kind, name, limits: { ...limits, maxC: 900 } });
  await changeRoles(made.manager, { memberId: made.member.memberId, roles: ["member", "assistant"] });
  await addClosure(made.manager, { from: "2030-12-24", reason: "100 % holiday" });
});

const actionsOf = async (text: string) => (await workshopRecord(made.manager, { page: 1, text })).lines.map((line) => line.action);

describe("the record", () => {
  it("shows who did what, newest first, and of two states only what differs", async () => {
    const { lines, total } = await workshopRecord(made.manager, { page: 1, text: "" });
    expect(total).toBe(3);
    expect(lines).toMatchObject([
      { action: "add-closure", who: "Marit Toft", reason: "100 % holiday", before: "" },
      { action: "change-roles", called: "Jonas Brink", before: "name Jonas Brink; roles member", after: "name Jonas Brink; roles member, assistant" },
      { action: "change-equipment", called: "North kiln", before: "name North kiln; limits (max C 1000)", after: "name North kiln; limits (max C 900)" },
    ]);
  });

  it.each([
    ["the action as the screen writes it", "change equipment", ["change-equipment"]],
    ["what the subject is called, in any case", "north KILN", ["change-equipment"]],
    ["a person who was changed", "jonas", ["change-roles"]],
    ["a reason with a sign of its own", "100 %", ["add-closure"]],
    ["a sign that would stand for anything", "%", ["add-closure"]],
    ["who did it", "Marit", ["add-closure", "change-roles", "change-equipment"]],
    ["nothing that is there", "crucible", []],
  ])("is found by %s", async (_name, text, actions) => {
    expect(await actionsOf(text)).toEqual(actions);
  });

  it("names what its page speaks of and reads no other names: castings, firings, their checks and asks, in the words of the search too", async () => {
    const castingId = await describedCasting(made.member, "Tall heron");
    const other = await describedCasting(made.member, "Low tide");
    await owner.query("UPDATE casting SET title = 'Tall heron, mended' WHERE casting_id = $1", [castingId]);
    const firingId = randomUUID();
    await owner.query("INSERT INTO audit (workshop_id, at, action, subject, subject_id, after) VALUES ($1, now(), 'answer-check', 'check-item', $2 || '/L5', $3)", [made.workshopId, firingId, { castings: { first: castingId, kilnId: made.southKiln.equipmentId } }]);
    const [line] = (await workshopRecord(made.manager, { page: 1, text: "answer check" })).lines;
    expect(line).toMatchObject({ called: "L5 of ", after: "castings (first Tall heron, mended; kiln South kiln)" });
    expect(await actionsOf("heron, mended")).toEqual(["create-casting"]);
    expect(await actionsOf("low TIDE")).toEqual(["create-casting"]);
    const names = await inWorkshop(made.workshopId, (tx) => loadRecordNames(tx, [{ subjectId: castingId, before: null, after: { kilnId: made.northKiln.equipmentId } }]));
    expect(names).toEqual(new Map([[castingId, "Tall heron, mended"], [made.northKiln.equipmentId, "North kiln"]]));
    expect(names.has(other)).toBe(false);
  });

  it("calls a firing by its castings, and finds its checks by them", async () => {
    const { firingId } = await bookedRun(made.member, made.northKiln.equipmentId, "Reed bowl");
    await owner.query("INSERT INTO audit (workshop_id, at, action, subject, subject_id) VALUES ($1, now(), 'answer-check', 'check-item', $2 || '/L5')", [made.workshopId, firingId]);
    const { lines } = await workshopRecord(made.manager, { page: 1, text: "reed bowl" });
    expect(lines.map(({ action, called }) => [action, called])).toEqual([["answer-check", "L5 of Reed bowl"], ["book-run", "Reed bowl"], ["create-casting", "Reed bowl"]]);
  });

  it("stays on its last page when a later one is asked for", async () => {
    expect(await workshopRecord(made.manager, { page: 9, text: "" })).toMatchObject({ page: 1, pages: 1 });
  });

  it("is the manager's, and each workshop's own", async () => {
    await expect(workshopRecord(made.member, { page: 1, text: "" })).rejects.toThrow(NotAllowed);
    const other = await makeWorkshop(database.ownerUrl);
    expect((await workshopRecord(other.manager, { page: 1, text: "" })).total).toBe(0);
  });
});
