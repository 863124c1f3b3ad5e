import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { addClosure } = await import("@/lib/server/commands/add-closure");
const { changeEquipment } = await import("@/lib/server/commands/change-equipment");
const { changeRoles } = await import("@/lib/server/commands/change-roles");
const { NotAllowed } = await import("@/lib/server/query");
const { workshopRecord } = await import("@/lib/server/queries/workshop-record");

afterAll(async () => {
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

  it("stays on its last page when a later one is asked for", async () => {
    expect(await workshopRecord(made.manager, { page: 9, text: "" })).toMatchObject({ page: 1, pages: 1 });
  });

  it("is the manager's, and each workshop's own", async () => {
    await expect(workshopRecord(made.member, { page: 1, text: "" })).rejects.toThrow(NotAllowed);
    const other = await makeWorkshop(database.ownerUrl);
    expect((await workshopRecord(other.manager, { page: 1, text: "" })).total).toBe(0);
  });
});
