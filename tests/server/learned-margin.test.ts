import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { writePastFiring } from "@/tests/helpers/past-firing";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
process.env["LEHRBOOK_CLOCK_START"] = "2026-11-25T10:00:00Z";
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { atInstant } = await import("@/lib/server/clock");
const { answerCheck } = await import("@/lib/server/commands/answer-check");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { markOpened } = await import("@/lib/server/commands/mark-opened");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { setExpectedEnd } = await import("@/lib/server/commands/set-expected-end");
const { startFiring } = await import("@/lib/server/commands/start-firing");
const { checkSheetScreen } = await import("@/lib/server/queries/check-sheet");
const { findTime } = await import("@/lib/server/queries/find-time");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { kilnRecordScreen } = await import("@/lib/server/queries/kiln-record");
const { moveTimes } = await import("@/lib/server/queries/move-times");
const { readNewCasting } = await import("@/lib/server/queries/casting");
const { loadFiringRecords } = await import("@/lib/server/rows/firing-records");
const { bookedRun, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");

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

const past = (nth: number, over: Partial<Parameters<typeof writePastFiring>[2]> = {}) => writePastFiring(owner, shed, { nth, hours: 130, bookedHours: 112, ...over });
/** Three firings that each needed three usual margins. */
const threeLate = async () => { for (const nth of [0, 1, 2]) await past(nth); };
const records = () => inWorkshop(shed.workshopId, (tx) => loadFiringRecords(tx, [shed.northKiln.equipmentId, shed.southKiln.equipmentId]));
const actualHours = async () => (await records()).map(({ record }) => record.actualHours);
const marginOf = async (kilnId: string) => (await readNewCasting(shed.member, undefined)).kilns.find((kiln) => kiln.equipmentId === kilnId)?.margin;
const outage = (startsAt: string, endsAt: string | null, withdrawn = false) =>
  owner.query("INSERT INTO outage (workshop_id, equipment_id, starts_at, ends_at, reason, withdrawn_at) VALUES ($1, $2, $3, $4, 'A broken element', $5)", [
    shed.workshopId, shed.northKiln.equipmentId, startsAt, endsAt, withdrawn ? startsAt : null,
  ]);

describe("the firings a kiln's margin is learned from", () => {
  it("are those that were started and opened, of this workshop only", async () => {
    await past(0);
    await past(1, { status: "cancelled" });
    await past(2, { status: "released" });
    await past(3, { status: "started", hours: 24 });
    await writePastFiring(owner, await makeWorkshop(database.ownerUrl), { nth: 0, hours: 130 });
    expect((await records()).map(({ title }) => title)).toEqual(["Past 0"]);
  });

  it("leave out one that was broken by an outage, and none that an outage only touches", async () => {
    const { startedAt, openedAt } = await past(0);
    const before = Temporal.Instant.from(startedAt).subtract({ hours: 9 }).toString();
    await outage(before, startedAt);
    await outage(openedAt, null);
    await outage(before, null, true);
    expect(await records()).toHaveLength(1);
    await outage(Temporal.Instant.from(openedAt).subtract({ minutes: 1 }).toString(), openedAt);
    expect(await records()).toHaveLength(0);
  });

  it("count what was held when opened in time, and all that it took when opened later", async () => {
    await past(0, { hours: 116, bookedHours: 116 });
    await past(1, { hours: 104, bookedHours: 106 });
    await past(2, { hours: 116, bookedHours: 115.9 });
    expect((await actualHours()).toSorted()).toEqual([104, 110, 116]);
  });

  it("count what was held with the margin that they had, not with the usual one", async () => {
    await past(0, { hours: 140, bookedHours: 140, reservation: { margin: { usualHours: 12, learnedFrom: { factor: 2.5, firings: 4, sufficed: 4 } } } });
    expect((await records()).map(({ record }) => record)).toEqual([{ programHours: 100, usualMarginHours: 12, actualHours: 130 }]);
  });

  it("leave out what has no numbers to learn from", async () => {
    await past(0, { reservation: { marginHours: null } });
    await past(1, { reservation: { marginHours: 0 } });
    expect(await records()).toEqual([]);
  });

  it("are the last forty of each kiln", async () => {
    for (let nth = 0; nth < 42; nth += 1) await past(nth);
    const titles = (await records()).map(({ title }) => title);
    expect(titles).toHaveLength(40);
    expect(titles).not.toContain("Past 1");
    expect(titles).toContain("Past 2");
  });
});

describe("a kiln's own margin", () => {
  it("is none with two firings, and learned with three, for this kiln alone", async () => {
    await past(0);
    await past(1);
    expect(await marginOf(shed.northKiln.equipmentId)).toBeNull();
    await past(2);
    expect(await marginOf(shed.northKiln.equipmentId)).toEqual({ factor: 3, firings: 3, sufficed: 3 });
    expect(await marginOf(shed.southKiln.equipmentId)).toBeNull();
  });

  it("is offered, booked and kept with the plan, and a plan keeps it whatever is learned later", async () => {
    const castingId = await describedCasting(shed.member, "Heron");
    const offered = async () => (await findTime(shed.member, { castingId }))?.offers.kilns.find((kiln) => kiln.kilnId === shed.northKiln.equipmentId);
    const usual = await offered();
    await threeLate();
    const learned = await offered();
    expect(learned?.reservation.hours).toBeGreaterThan(usual?.reservation.hours ?? Infinity);
    const { firingId } = must(await bookRun(shed.member, { ...(await firstOffer(shed.member, castingId, shed.northKiln.equipmentId)), requestKey: randomUUID() }));
    const learnedFrom = { factor: 3, firings: 3, sufficed: 3 };
    const { rows: [stored] } = await owner.query("SELECT p.inputs, p.outputs FROM plan p JOIN firing f USING (workshop_id, plan_id) WHERE f.firing_id = $1", [firingId]);
    expect(stored.inputs.kiln.margin).toEqual(learnedFrom);
    expect(stored.outputs.reservation).toMatchObject({ hours: learned?.reservation.hours, margin: { learnedFrom } });
    for (const nth of [3, 4, 5, 6]) await past(nth, { hours: 150, bookedHours: 120 });
    expect((await marginOf(shed.northKiln.equipmentId))?.firings).toBe(7);
    expect((await firingScreen(shed.member, firingId))?.plan.reservation.margin?.learnedFrom).toEqual(learnedFrom);
  });

  it("is no change of the casting when it was learned after the booking", async () => {
    const { firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId, "Heron");
    await owner.query("UPDATE casting SET updated_at = now() + interval '1 year' WHERE title = 'Heron' AND workshop_id = $1", [shed.workshopId]);
    await threeLate();
    expect((await firingScreen(shed.member, firingId))?.planNow).toMatchObject({ differs: false });
  });

  it("goes with a run that moves on its own kiln", async () => {
    await threeLate();
    const { firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId, "Heron");
    const screen = await moveTimes(shed.member, { firingId, notBefore: "2027-02-01" });
    const to = screen?.offers.kilns.find((kiln) => kiln.kilnId === shed.northKiln.equipmentId)?.runs[0];
    must(await moveRun(shed.member, { firingId, version: 1, kilnId: shed.northKiln.equipmentId, kilnFrom: to?.kilnFrom ?? "", requestKey: randomUUID() }));
    expect((await firingScreen(shed.member, firingId))?.plan.reservation.margin?.learnedFrom?.firings).toBe(3);
  });
});

describe("the record of a kiln", () => {
  it("says that the usual margin is used while no firing has been opened", async () => {
    await past(0, { status: "started", hours: 24 });
    expect(await kilnRecordScreen(shed.manager, shed.northKiln.equipmentId)).toEqual({
      margin: null, why: "No firing of this kiln has been opened yet: the usual margin is used.", firings: [],
    });
  });

  it("sets planned against actual, latest first, by the usual margin until one is learned", async () => {
    await past(0, { hours: 109, bookedHours: 109 });
    const { openedAt } = await past(1, { hours: 111, bookedHours: 108 });
    const { firings, margin } = await kilnRecordScreen(shed.manager, shed.northKiln.equipmentId);
    expect(margin).toBeNull();
    expect(firings.map(({ title, sufficed }) => [title, sufficed])).toEqual([["Past 1", false], ["Past 0", true]]);
    expect(firings[0]).toMatchObject({ openedMs: Date.parse(openedAt), programHours: 100, openedAfterHours: 111, countedHours: 111, marginHours: 10 });
  });

  it("tells for each firing whether the learned margin would have sufficed", async () => {
    for (const [nth, hours] of [108, 112, 116].entries()) await past(nth, { hours, bookedHours: hours - 1 });
    const { firings, margin } = await kilnRecordScreen(shed.manager, shed.northKiln.equipmentId);
    expect(margin).toEqual({ factor: 1.5, firings: 3, sufficed: 2 });
    expect(firings.map(({ marginHours, sufficed }) => [marginHours, sufficed])).toEqual([[15, false], [15, true], [15, true]]);
  });
});

describe("a firing that ran late", () => {
  it("counts until it was said to be cool, not until people came, although its booking was lengthened", async () => {
    const { firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId, "Heron");
    const booked = await firingScreen(shed.member, firingId);
    if (booked === null || booked.unloadFrom === null) throw new Error("not booked");
    const start = Temporal.Instant.from(booked.kiln.from);
    const cool = Temporal.Instant.from(booked.unloadFrom).add({ hours: 26 });
    await atInstant(start, async () => {
      await tick(firingId, "block");
      must(await startFiring(shed.member, { firingId }));
      must(await setExpectedEnd(shed.member, { firingId, at: cool.toString(), reason: "The core lags behind." }));
      must(await lengthenBooking(shed.member, { firingId, kilnTo: cool.add({ hours: 8 }).toString() }));
    });
    const late = await firingScreen(shed.member, firingId);
    await atInstant(Temporal.Instant.from(late?.unloadFrom ?? "").add({ minutes: 20 }), async () => {
      await tick(firingId, "open");
      must(await markOpened(shed.member, { firingId }));
    });
    expect(await actualHours()).toEqual([cool.since(start).total("hours")]);
  });
});

async function tick(firingId: string, level: "block" | "open"): Promise<void> {
  const sheet = await checkSheetScreen(shed.member, firingId);
  for (const { item } of sheet?.lines ?? []) if (item.level === level) must(await answerCheck(shed.member, { firingId, code: item.code, kind: "tick" }));
}
