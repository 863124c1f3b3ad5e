import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";
import { writeFiring } from "@/tests/helpers/written-firing";

const database = await useFreshDatabase();
// Dates here lie in 2028; clashes that are over are not shown, so the clock stands before them.
process.env["LEHRBOOK_CLOCK_START"] = "2026-11-25T10:00:00Z";
const { kilnWall } = await import("@/lib/server/queries/kiln-wall");
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

const day = (iso: string) => Temporal.PlainDate.from(iso);
const kiln = (equipmentId: string, from: string, to: string) => ({ purpose: "kiln", equipmentId, from, to }) as const;
const north = shed.northKiln.equipmentId;
const ids = (list: readonly { readonly id: string }[]) => list.map((one) => one.id);

describe("the weeks in sight", () => {
  it("begin on the Monday of the day's week at the workshop's midnight, and last twelve weeks of its own calendar", async () => {
    const wall = await kilnWall(shed.member, day("2031-02-06"));
    expect(wall.fromDay).toBe("2031-02-03");
    expect(new Date(wall.fromMs).toISOString()).toBe("2031-02-02T23:00:00.000Z");
    // The clocks go forward on 30 March 2031, so twelve weeks are an hour short of 12 × 168.
    expect((wall.toMs - wall.fromMs) / 3_600_000).toBe(12 * 168 - 1);
  });

  it("stay the same for the Monday itself and for the Sunday, and move on with the next Monday", async () => {
    expect((await kilnWall(shed.member, day("2031-02-03"))).fromDay).toBe("2031-02-03");
    expect((await kilnWall(shed.member, day("2031-02-09"))).fromDay).toBe("2031-02-03");
    expect((await kilnWall(shed.member, day("2031-02-10"))).fromDay).toBe("2031-02-10");
  });

  it("are this week's without a day, with now inside the first of them", async () => {
    const wall = await kilnWall(shed.member, null);
    expect(wall.nowMs).toBeGreaterThanOrEqual(wall.fromMs);
    expect(wall.nowMs - wall.fromMs).toBeLessThan(169 * 3_600_000);
  });
});

describe("what is on the wall", () => {
  it("is every firing that overlaps the weeks; one that only touches their start or end is not", async () => {
    // In sight: Monday 2030-01-07 to Monday 2030-04-01, midnight in Copenhagen (+01:00, then +02:00).
    const touchesStart = await writeFiring(owner, { owner: shed.member, bookings: [kiln(north, "2030-01-01T08:00:00Z", "2030-01-06T23:00:00Z")] });
    const reachesIn = await writeFiring(owner, { owner: shed.member, bookings: [kiln(shed.southKiln.equipmentId, "2030-01-01T08:00:00Z", "2030-01-06T23:01:00Z")] });
    const inside = await writeFiring(owner, { owner: shed.member, bookings: [kiln(north, "2030-02-01T08:00:00Z", "2030-02-12T08:00:00Z")] });
    const reachesOut = await writeFiring(owner, { owner: shed.member, bookings: [kiln(shed.southKiln.equipmentId, "2030-03-31T21:59:00Z", "2030-04-05T08:00:00Z")] });
    const touchesEnd = await writeFiring(owner, { owner: shed.member, bookings: [kiln(north, "2030-03-31T22:00:00Z", "2030-04-08T08:00:00Z")] });
    const wall = await kilnWall(shed.member, day("2030-01-07"));
    expect(ids(wall.bars)).toEqual([reachesIn, inside, reachesOut]);
    expect(ids(wall.bars)).not.toContain(touchesStart);
    expect(ids(wall.bars)).not.toContain(touchesEnd);
  });

  it("says who and what, which are mine, and where each leads", async () => {
    const firingId = await writeFiring(owner, { owner: shed.member, title: "Shore block", status: "started", bookings: [kiln(north, "2028-05-02T08:00:00Z", "2028-05-12T08:00:00Z")] });
    const own = (await kilnWall(shed.member, day("2028-05-01"))).bars;
    expect(own).toMatchObject([{ id: firingId, kilnId: north, title: "Shore block", who: "Jonas Brink", mine: true, status: "started", href: `/firings/${firingId}` }]);
    expect((await kilnWall(shed.assistant, day("2028-05-01"))).bars).toMatchObject([{ id: firingId, mine: false, who: "Jonas Brink" }]);
  });

  it("leaves out a run that was cancelled", async () => {
    const firingId = await writeFiring(owner, { owner: shed.member, bookings: [kiln(north, "2032-05-03T08:00:00Z", "2032-05-12T08:00:00Z")] });
    expect(ids((await kilnWall(shed.member, day("2032-05-03"))).bars)).toEqual([firingId]);
    await owner.query("WITH b AS (UPDATE booking SET standing = false WHERE firing_id = $1) UPDATE firing SET status = 'cancelled' WHERE firing_id = $1", [firingId]);
    expect((await kilnWall(shed.member, day("2032-05-03"))).bars).toEqual([]);
  });

  it("shows every kiln by name, and a retired one only while something stands on it", async () => {
    expect((await kilnWall(shed.member, day("2034-01-02"))).kilns.map((k) => k.name)).toEqual(["North kiln", "South kiln"]);
    const retired = await makeWorkshop(database.ownerUrl);
    await writeFiring(owner, { owner: retired.member, bookings: [kiln(retired.northKiln.equipmentId, "2034-01-03T08:00:00Z", "2034-01-12T08:00:00Z")] });
    await owner.query("UPDATE equipment SET retired_at = now() WHERE workshop_id = $1", [retired.workshopId]);
    expect((await kilnWall(retired.member, day("2034-01-02"))).kilns.map((k) => k.name)).toEqual(["North kiln"]);
    expect((await kilnWall(retired.member, day("2034-06-05"))).kilns).toEqual([]);
  });

  it("shows nothing of another workshop", async () => {
    const wall = await kilnWall(elsewhere.manager, day("2030-01-07"));
    expect(wall.bars).toEqual([]);
    expect(ids(wall.kilns).sort()).toEqual([elsewhere.northKiln.equipmentId, elsewhere.southKiln.equipmentId].sort());
  });

  it("shows outages of kilns: one with no end reaches to the end of sight, one withdrawn or of the steamer is not there", async () => {
    const outage = (equipmentId: string, from: string, to: string | null, withdrawn: string | null) =>
      owner.query("INSERT INTO outage (workshop_id, equipment_id, starts_at, ends_at, reason, withdrawn_at) VALUES ($1, $2, $3, $4, 'New elements', $5)", [shed.workshopId, equipmentId, from, to, withdrawn]);
    await outage(north, "2035-02-06T08:00:00Z", "2035-02-07T08:00:00Z", null);
    await outage(north, "2035-02-08T08:00:00Z", "2035-02-09T08:00:00Z", "2035-01-01T08:00:00Z");
    await outage(shed.steamer.equipmentId, "2035-02-06T08:00:00Z", "2035-02-07T08:00:00Z", null);
    await outage(north, "2035-02-20T08:00:00Z", null, null);
    const wall = await kilnWall(shed.member, day("2035-02-05"));
    expect(wall.outages.map((o) => [o.reason, o.endMs])).toEqual([
      ["New elements", Date.parse("2035-02-07T08:00:00Z")],
      ["New elements (no end known)", wall.toMs],
    ]);
  });
});

describe("the pieces of a bar", () => {
  it("cover it from end to end without a gap", async () => {
    const [bar] = (await kilnWall(shed.member, day("2030-02-01"))).bars;
    const segments = bar?.segments ?? [];
    expect(segments.length).toBeGreaterThan(5);
    expect(segments[0]?.startMs).toBe(bar?.startMs);
    expect(segments.at(-1)?.endMs).toBe(bar?.endMs);
    segments.slice(1).forEach((one, i) => expect(one.startMs).toBe(segments[i]?.endMs));
  });

  it.each([["spring", "2036-03-28T09:00:00+01:00", "2036-04-07T09:00:00+02:00", -1], ["autumn", "2036-10-24T09:00:00+02:00", "2036-11-03T09:00:00+01:00", 1]])(
    "keep their true hours over the %s change: the bar is an hour off its ten wall-clock days and its stages are not",
    async (_season, from, to, off) => {
      const firingId = await writeFiring(owner, { owner: shed.member, bookings: [kiln(north, from, to)] });
      const wall = await kilnWall(shed.member, Temporal.PlainDate.from(from.slice(0, 10)));
      const bar = wall.bars.find((one) => one.id === firingId);
      expect(((bar?.endMs ?? 0) - (bar?.startMs ?? 0)) / 3_600_000).toBe(240 + off);
      const hours = bar?.segments.map((one) => (one.endMs - one.startMs) / 3_600_000) ?? [];
      expect(hours).toEqual([24, 12, 6, 12, 60, 30, 96 + off]);
    },
  );
});

describe("asks and clashes", () => {
  it("an open ask is a ghost; the firing it crowds and the ask itself carry the trouble in general words", async () => {
    const from = Temporal.Now.instant().add({ hours: 24 * 20 });
    const [a, b] = [from.toString(), from.add({ hours: 240 }).toString()];
    const firingId = await writeFiring(owner, { owner: elsewhere.member, bookings: [kiln(elsewhere.northKiln.equipmentId, a, b)] });
    const { rows } = await owner.query("SELECT plan_id, casting_id FROM firing_casting JOIN firing USING (workshop_id, firing_id) WHERE firing_id = $1", [firingId]);
    const askId = randomUUID();
    await owner.query(
      "INSERT INTO ask (workshop_id, ask_id, casting_id, member_id, plan_id, kiln_id, wished_from, wished_to) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
      [elsewhere.workshopId, askId, rows[0].casting_id, elsewhere.otherMember.memberId, rows[0].plan_id, elsewhere.northKiln.equipmentId, a, b],
    );
    const wall = await kilnWall(elsewhere.member, null);
    expect(wall.ghosts).toMatchObject([{ id: askId, who: "Selma Krog", mine: false, segments: [], href: `#ask-${askId}`, trouble: "a firing holds the kiln then" }]);
    expect(wall.bars.find((bar) => bar.id === firingId)?.trouble).toContain("another asks for the same weeks");
    expect((await kilnWall(elsewhere.manager, null)).ghosts[0]?.href).toBe("/clashes");
    expect((await kilnWall(elsewhere.otherMember, null)).ghosts[0]).toMatchObject({ mine: true, href: `/castings/${rows[0].casting_id}/find-time` });
  });
});
