import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";
import { writeFiring } from "@/tests/helpers/written-firing";

const database = await useFreshDatabase();
const { calendarScreen } = await import("@/lib/server/queries/calendar");
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

const around = (iso: string) => ({ of: "all", around: Temporal.PlainDate.from(iso) }) as const;
const kilnRun = (from: string, to: string) => [{ purpose: "kiln", equipmentId: shed.northKiln.equipmentId, from, to }] as const;

describe("a run on the calendar", () => {
  it("is each of its bookings, saying what, whose and where, and leading to the firing", async () => {
    const firingId = await writeFiring(owner, {
      owner: shed.member,
      title: "Reed bowl",
      bookings: [
        { purpose: "steam-out", equipmentId: shed.steamer.equipmentId, from: "2028-02-01T08:00:00Z", to: "2028-02-01T12:00:00Z" },
        { purpose: "load", equipmentId: shed.trolley.equipmentId, from: "2028-02-02T08:00:00Z", to: "2028-02-02T08:30:00Z" },
        { purpose: "kiln", equipmentId: shed.northKiln.equipmentId, from: "2028-02-02T08:30:00Z", to: "2028-02-16T10:00:00Z" },
        { purpose: "unload", equipmentId: shed.trolley.equipmentId, from: "2028-02-16T08:00:00Z", to: "2028-02-16T08:30:00Z" },
      ],
    });
    const { entries } = await calendarScreen(shed.assistant, around("2028-02-10"));
    expect(entries.map((e) => [e.purpose, e.title, e.place, e.href])).toEqual([
      ["steam-out", "Steam out: Reed bowl, Jonas Brink", "Steamer", `/firings/${firingId}`],
      ["load", "Load: Reed bowl, Jonas Brink", "Blue trolley", `/firings/${firingId}`],
      ["kiln", "Kiln: Reed bowl, Jonas Brink · North kiln", "North kiln", `/firings/${firingId}`],
      ["unload", "Unload: Reed bowl, Jonas Brink", "Blue trolley", `/firings/${firingId}`],
    ]);
    expect(entries[2]).toMatchObject({ startMs: Date.parse("2028-02-02T08:30:00Z"), endMs: Date.parse("2028-02-16T10:00:00Z"), mine: false });
  });

  it("is marked for the one whose it is, and the only kind shown when asking for one's own", async () => {
    const mine = await calendarScreen(shed.member, { ...around("2028-02-10"), of: "mine" });
    expect(mine.entries).toHaveLength(4);
    expect(mine.entries.every((e) => e.mine && e.title.includes("Jonas Brink (you)"))).toBe(true);
    expect((await calendarScreen(shed.otherMember, { ...around("2028-02-10"), of: "mine" })).entries).toEqual([]);
  });

  it("is not shown to another workshop", async () => {
    expect((await calendarScreen(elsewhere.manager, around("2028-02-10"))).entries).toEqual([]);
  });

  it("is gone once it is cancelled", async () => {
    const firingId = await writeFiring(owner, { owner: shed.member, bookings: kilnRun("2040-02-02T08:30:00Z", "2040-02-16T10:00:00Z") });
    expect((await calendarScreen(shed.member, around("2040-02-10"))).entries).toHaveLength(1);
    await owner.query("WITH b AS (UPDATE booking SET standing = false WHERE firing_id = $1) UPDATE firing SET status = 'cancelled' WHERE firing_id = $1", [firingId]);
    expect((await calendarScreen(shed.member, around("2040-02-10"))).entries).toEqual([]);
  });
});

describe("the months that are read", () => {
  it("are whole, six before and six after the day, on the workshop's own calendar", async () => {
    expect(await calendarScreen(shed.member, around("2031-03-30"))).toMatchObject({ fromDay: "2030-09-01", toDay: "2031-10-01" });
    expect(await calendarScreen(shed.member, around("2031-08-31"))).toMatchObject({ fromDay: "2031-02-01", toDay: "2032-03-01" });
  });

  it("lie around today without a day", async () => {
    const { today, fromDay, toDay } = await calendarScreen(shed.member, { of: "all", around: null });
    expect(fromDay < today && today < toDay).toBe(true);
  });

  it("hold what reaches into them, and not what only touches them", async () => {
    // Read around March 2031: from 2030-09-01 to 2031-10-01, midnight in Copenhagen (+02:00 on both days).
    await writeFiring(owner, { owner: shed.member, title: "ends at the start", bookings: kilnRun("2030-08-20T08:00:00Z", "2030-08-31T22:00:00Z") });
    await writeFiring(owner, { owner: shed.member, title: "starts at the end", bookings: kilnRun("2031-09-30T22:00:00Z", "2031-10-09T08:00:00Z") });
    await writeFiring(owner, { owner: shed.member, title: "reaches out", bookings: kilnRun("2031-09-20T08:00:00Z", "2031-09-30T22:00:00Z") });
    const titles = (await calendarScreen(shed.otherMember, around("2031-03-30"))).entries.map((e) => e.title);
    expect(titles).toEqual(["Kiln: reaches out, Jonas Brink · North kiln"]);
  });
});

describe("what keeps the workshop from working", () => {
  it("an outage says what and why, leads only those who keep the equipment to it, and is not shown once withdrawn", async () => {
    const write = (reason: string, ends: string | null, withdrawn: string | null) =>
      owner.query("INSERT INTO outage (workshop_id, equipment_id, starts_at, ends_at, reason, withdrawn_at) VALUES ($1, $2, '2034-03-02T08:00:00Z', $3, $4, $5)", [shed.workshopId, shed.steamer.equipmentId, ends, reason, withdrawn]);
    await write("scale in the boiler", "2034-03-04T08:00:00Z", null);
    await write("never happened", "2034-03-04T08:00:00Z", "2034-01-01T08:00:00Z");
    const [outage, ...rest] = (await calendarScreen(shed.member, around("2034-03-02"))).entries;
    expect(rest).toEqual([]);
    expect(outage).toMatchObject({ purpose: "outage", title: "Out of service: Steamer, scale in the boiler", href: null });
    expect((await calendarScreen(shed.manager, around("2034-03-02"))).entries[0]?.href).toBe(`/workshop/equipment/${shed.steamer.equipmentId}`);
    await write("a crack", null, null);
    const open = (await calendarScreen(shed.member, { ...around("2034-03-02"), of: "mine" })).entries[1];
    expect(open).toMatchObject({ title: "Out of service: Steamer, a crack (no end known)", endMs: Date.parse("2034-09-30T22:00:00Z") });
  });

  it("a closure is whole local days, both included, and says closed once", async () => {
    await owner.query("INSERT INTO closure (workshop_id, from_date, to_date, reason) VALUES ($1, '2044-12-24', '2045-01-02', 'Turn of the year'), ($1, '2045-04-03', '2045-04-03', 'Closed for stocktaking')", [elsewhere.workshopId]);
    const { entries } = await calendarScreen(elsewhere.member, around("2044-12-24"));
    expect(entries).toMatchObject([
      { purpose: "closure", title: "Closed: Turn of the year", fromDay: "2044-12-24", toDay: "2045-01-02", href: null },
      { purpose: "closure", title: "Closed for stocktaking", fromDay: "2045-04-03", toDay: "2045-04-03" },
    ]);
    expect((await calendarScreen(elsewhere.manager, around("2044-12-24"))).entries[0]?.href).toBe("/workshop/hours");
  });
});

describe("the hours that are shown", () => {
  it("are the staffed ones with an hour on either side, widened for a booking outside them", async () => {
    const place = await makeWorkshop(database.ownerUrl);
    expect((await calendarScreen(place.member, around("2028-02-10"))).hours).toEqual({ from: 8, to: 19 });
    await writeFiring(owner, {
      owner: place.member,
      bookings: [
        { purpose: "steam-out", equipmentId: place.steamer.equipmentId, from: "2028-02-01T05:30:00Z", to: "2028-02-01T12:00:00Z" },
        { purpose: "kiln", equipmentId: place.northKiln.equipmentId, from: "2028-02-02T01:00:00Z", to: "2028-02-16T22:30:00Z" },
      ],
    });
    expect((await calendarScreen(place.member, around("2028-02-10"))).hours).toEqual({ from: 6, to: 19 });
  });
});
