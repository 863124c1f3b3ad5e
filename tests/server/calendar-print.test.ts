import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { calendarPrint } = await import("@/lib/server/ways-out/calendar-print");
const { bookedRun, describedCasting, must } = await import("@/tests/helpers/booking");
let owner: pg.Client;
let made: MadeWorkshop;
let firingId: string;
let askId: string;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  made = await makeWorkshop(database.ownerUrl);
  firingId = (await bookedRun(made.member, made.northKiln.equipmentId)).firingId;
  const castingId = await describedCasting(made.otherMember);
  const day = new Date(Date.now() + 20 * 86_400_000).toISOString().slice(0, 10);
  askId = must(await createAsk(made.otherMember, { castingId, kilnId: made.northKiln.equipmentId, fromDate: day, importance: 2, note: "" })).askId;
}, 60_000);
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

/** Whether a transaction that read the calendar sees by its print that this was done meanwhile. */
const isSeen = (meanwhile: () => Promise<unknown>): Promise<boolean> =>
  inWorkshop(made.workshopId, async (tx) => {
    const before = await calendarPrint(tx);
    await meanwhile();
    return (await calendarPrint(tx, before)).print !== before.print;
  });

describe("the print of a calendar", () => {
  it.each<readonly [string, () => string]>([
    ["a booking that moved", () => `UPDATE booking SET ends_at = ends_at + interval '1 minute' WHERE firing_id = '${firingId}' AND purpose = 'kiln'`],
    ["a lift that takes more people", () => `UPDATE lift SET hands = hands + 1 WHERE firing_id = '${firingId}' AND what = 'load'`],
    ["a firing that is late", () => `UPDATE firing SET expected_end = now() + interval '90 days' WHERE firing_id = '${firingId}'`],
    ["a firing that started", () => `UPDATE firing SET status = 'started', started_at = now() WHERE firing_id = '${firingId}'`],
    ["a casting that was changed", () => `UPDATE casting SET title = 'Other' WHERE casting_id = (SELECT casting_id FROM firing_casting WHERE firing_id = '${firingId}')`],
    ["an ask that was changed", () => `UPDATE ask SET importance = 3 WHERE ask_id = '${askId}'`],
    ["the casting of an ask", () => `UPDATE casting SET title = 'Other' WHERE casting_id = (SELECT casting_id FROM ask WHERE ask_id = '${askId}')`],
    ["an ask that was answered", () => `UPDATE ask SET status = 'withdrawn' WHERE ask_id = '${askId}'`],
    ["an outage", () => `INSERT INTO outage (workshop_id, equipment_id, starts_at, reason) VALUES ('${made.workshopId}', '${made.northKiln.equipmentId}', now(), 'a burnt element')`],
    ["other hours", () => `UPDATE staffed_hours SET hands = 2 WHERE workshop_id = '${made.workshopId}' AND weekday = 1`],
    ["another limit", () => `UPDATE workshop SET power_limit_kw = 30 WHERE workshop_id = '${made.workshopId}'`],
    ["something learned of a kiln", () => `UPDATE equipment SET record_version = record_version + 1 WHERE equipment_id = '${made.southKiln.equipmentId}'`],
  ])("is another one after %s", async (_what, statement) => {
    expect(await isSeen(() => owner.query(statement()))).toBe(true);
  });

  it("sees a run that is booked by a transaction which had begun before", async () => {
    const other = new pg.Client({ connectionString: database.ownerUrl });
    await other.connect();
    await other.query("BEGIN");
    await other.query("UPDATE lift SET why = 'heavy' WHERE firing_id = $1", [firingId]);
    expect(await isSeen(() => other.query("COMMIT"))).toBe(true);
    await other.end();
  });

  it("stays the same while nothing of this workshop changes", async () => {
    const stranger = await makeWorkshop(database.ownerUrl);
    expect(await isSeen(async () => undefined)).toBe(false);
    expect(await isSeen(() => owner.query("UPDATE workshop SET power_limit_kw = 12 WHERE workshop_id = $1", [stranger.workshopId]))).toBe(false);
    expect(await isSeen(() => owner.query("INSERT INTO notice (workshop_id, notice_id, member_id, text, href) VALUES ($1, $2, $3, 'Hello.', '/')", [made.workshopId, randomUUID(), made.member.memberId]))).toBe(false);
  });
});
