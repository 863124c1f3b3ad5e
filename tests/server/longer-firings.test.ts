import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { setExpectedEnd } = await import("@/lib/server/commands/set-expected-end");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { bookedRun, codeOf, must } = await import("@/tests/helpers/booking");

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
beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
});

async function booked() {
  const { firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId, "Heron");
  const { kiln, unloadFrom } = await seen(firingId);
  return { firingId, kilnTo: Temporal.Instant.from(kiln.to), unloadFrom };
}

async function seen(firingId: string) {
  const screen = await firingScreen(shed.member, firingId);
  if (screen === null || screen.unloadFrom === null) throw new Error("no such firing, or nothing to unload");
  return { kiln: screen.kiln, unloadFrom: Temporal.Instant.from(screen.unloadFrom), expectedEnd: screen.expectedEnd };
}

const notices = async (memberId: string) => (await owner.query("SELECT text FROM notice WHERE member_id = $1", [memberId])).rows.map((row) => row.text);
const kinds = async () => (await clashesScreen(shed.manager, undefined)).map((clash) => clash.kind);

describe("a firing that runs over", () => {
  it("shows as a clash, tells its owner why, and is settled by a longer booking", async () => {
    const { firingId, kilnTo, unloadFrom } = await booked();
    const cool = unloadFrom.add({ hours: 30 });
    must(await setExpectedEnd(shed.assistant, { firingId, at: cool.toString(), reason: "The program stood still." }));
    expect(await notices(shed.member.memberId)).toEqual([expect.stringContaining("The program stood still.")]);
    expect(await kinds()).toEqual(["overrun"]);
    must(await lengthenBooking(shed.manager, { firingId, kilnTo: kilnTo.add({ hours: 30 }).toString(), reason: "It is not cool." }));
    expect(await kinds()).toEqual([]);
  });

  it("is not unloaded before it is expected to be cool, however little the booking is lengthened", async () => {
    const { firingId, kilnTo, unloadFrom } = await booked();
    const cool = unloadFrom.add({ minutes: 45 });
    must(await setExpectedEnd(shed.member, { firingId, at: cool.toString(), reason: "Slower than planned." }));
    must(await lengthenBooking(shed.member, { firingId, kilnTo: kilnTo.add({ minutes: 15 }).toString() }));
    const after = await seen(firingId);
    expect(Temporal.Instant.compare(after.unloadFrom, cool)).toBeGreaterThanOrEqual(0);
    expect(after.expectedEnd).toBeNull();
    expect(await kinds()).toEqual([]);
  });

  it("moves unloading, trolley and lift together, in staffed hours", async () => {
    const { firingId, kilnTo } = await booked();
    const { kilnTo: held } = must(await lengthenBooking(shed.member, { firingId, kilnTo: kilnTo.add({ hours: 1 }).toString() }));
    expect(Temporal.Instant.compare(Temporal.Instant.from(held), kilnTo.add({ hours: 1 }))).toBeGreaterThanOrEqual(0);
    const { rows } = await owner.query(
      `SELECT b.starts_at = l.starts_at AND b.ends_at = l.ends_at AND b.equipment_id = l.trolley_id AS together
         FROM booking b JOIN lift l USING (workshop_id, firing_id)
        WHERE b.firing_id = $1 AND b.purpose = 'unload' AND b.standing AND l.what = 'unload' AND l.standing`,
      [firingId],
    );
    expect(rows).toEqual([{ together: true }]);
  });
});

describe("a longer booking", () => {
  it("is refused at the booked end and allowed a minute later", async () => {
    const { firingId, kilnTo } = await booked();
    expect(codeOf(await lengthenBooking(shed.member, { firingId, kilnTo: kilnTo.toString() }))).toBe("not-longer");
    must(await lengthenBooking(shed.member, { firingId, kilnTo: kilnTo.add({ minutes: 1 }).toString() }));
  });

  it("is refused with the name of whoever follows, and changes nothing", async () => {
    const { firingId, kilnTo } = await booked();
    await bookedRun(shed.otherMember, shed.northKiln.equipmentId, "Tern");
    const refused = await lengthenBooking(shed.member, { firingId, kilnTo: kilnTo.add({ hours: 24 * 10 }).toString() });
    expect(codeOf(refused)).toBe("kiln-taken");
    expect(refused.ok ? "" : refused.problems[0].message).toContain("Selma Krog for Tern");
    expect(Date.parse((await seen(firingId)).kiln.to)).toBe(kilnTo.epochMilliseconds);
  });

  it("is the owner's or the manager's to ask for, and the expected end anybody's who may run it", async () => {
    const { firingId, kilnTo } = await booked();
    const longer = { firingId, kilnTo: kilnTo.add({ hours: 5 }).toString() };
    const expected = { firingId, at: kilnTo.add({ hours: 5 }).toString(), reason: "Slower than planned." };
    const stranger = await makeWorkshop(database.ownerUrl);
    for (const who of [shed.otherMember, shed.assistant]) expect(codeOf(await lengthenBooking(who, longer))).toBe("not-allowed");
    expect(codeOf(await lengthenBooking(stranger.manager, longer))).toBe("not-found");
    expect(codeOf(await setExpectedEnd(shed.otherMember, expected))).toBe("not-allowed");
    expect(codeOf(await setExpectedEnd(stranger.manager, expected))).toBe("not-found");
    expect(codeOf(await setExpectedEnd(shed.member, { ...expected, at: "2020-01-01T00:00:00Z" }))).toBe("out-of-range");
  });
});
