import pg from "pg";
import { afterAll, beforeAll, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { tell } = await import("@/lib/server/tell");
let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function textsOf(memberId: string): Promise<readonly string[]> {
  const { rows } = await owner.query("SELECT text FROM notice WHERE member_id = $1 ORDER BY created_at", [memberId]);
  return rows.map(({ text }) => text);
}

it("leaves one notice for each member, however often one is named, and the reason behind the sentence", async () => {
  const { member, otherMember, manager } = shed;
  await inWorkshop(shed.workshopId, (tx) =>
    tell({ tx, now: now(), who: manager }, { to: [member.memberId, otherMember.memberId, member.memberId], kind: "moved", text: "It was moved.", href: "/", reason: "A door jams." }),
  );
  expect(await textsOf(member.memberId)).toEqual(["It was moved: A door jams."]);
  expect(await textsOf(otherMember.memberId)).toEqual(["It was moved: A door jams."]);
  expect(await textsOf(manager.memberId)).toEqual([]);
});

it("tells nothing when the transaction is rolled back", async () => {
  const failing = inWorkshop(shed.workshopId, async (tx) => {
    await tell({ tx, now: now(), who: shed.manager }, { to: [shed.assistant.memberId], kind: "booked", text: "It was booked.", href: "/" });
    throw new Error("rolled back");
  });
  await expect(failing).rejects.toThrow("rolled back");
  expect(await textsOf(shed.assistant.memberId)).toEqual([]);
});
