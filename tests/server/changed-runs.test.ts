import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { changeCasting } = await import("@/lib/server/commands/change-casting");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { replanRun } = await import("@/lib/server/commands/replan-run");
const { setExpectedEnd } = await import("@/lib/server/commands/set-expected-end");
const { shortenBooking } = await import("@/lib/server/commands/shorten-booking");
const { answerCheck } = await import("@/lib/server/commands/answer-check");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { bookedRun, codeOf, must, PEBBLE } = await import("@/tests/helpers/booking");

let owner: pg.Client;
let shed: MadeWorkshop;
const BIGGER = { ...PEBBLE, piece: { shape: "ball" as const, sizeMm: [110] as const } };
const SMALLER = { ...PEBBLE, piece: { shape: "ball" as const, sizeMm: [50] as const } };

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

async function booked(title = "Heron") {
  const run = await bookedRun(shed.member, shed.northKiln.equipmentId, title);
  return { ...run, ...(await seen(run.firingId)) };
}

async function seen(firingId: string) {
  const screen = await firingScreen(shed.member, firingId);
  if (screen === null) throw new Error("no such firing");
  return { version: screen.version, from: screen.kiln.from, to: Temporal.Instant.from(screen.kiln.to), hours: screen.plan.reservation.hours, screen };
}

const change = async (castingId: string, input: CastingInput) => must(await changeCasting(shed.member, { castingId, version: 1, title: "Heron", input, neededBy: null }));
const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;
const anew = (firingId: string, version: number, over: object = {}) => ({ firingId, version, requestKey: randomUUID(), ...over });

describe("a run whose casting was changed", () => {
  it("keeps its plan and its time until it is planned anew", async () => {
    const { castingId, firingId, hours, to } = await booked();
    await change(castingId, BIGGER);
    const after = await seen(firingId);
    expect([after.hours, after.to.toString()]).toEqual([hours, to.toString()]);
  });

  it("holds its kiln as long as the new plan needs, from the same closing of the door", async () => {
    const { castingId, firingId, version, from, to, hours } = await booked();
    await change(castingId, BIGGER);
    must(await replanRun(shed.member, anew(firingId, version)));
    const longer = await seen(firingId);
    expect(longer.from).toBe(from);
    expect(longer.hours).toBeGreaterThan(hours);
    expect(Temporal.Instant.compare(longer.to, to)).toBeGreaterThan(0);
    expect(longer.screen.planNow).toBeNull();
    must(await changeCasting(shed.member, { castingId, version: 2, title: "Heron", input: SMALLER, neededBy: null }));
    must(await replanRun(shed.member, anew(firingId, longer.version)));
    const shorter = await seen(firingId);
    expect(shorter.from).toBe(from);
    expect(Temporal.Instant.compare(shorter.to, longer.to)).toBeLessThan(0);
    expect(shorter.hours).toBeLessThan(hours);
  });

  it("has lifts and check sheet of the new plan, and its old plan on record", async () => {
    const { castingId, firingId, version } = await booked();
    const sheet = () => rows("SELECT code, detail FROM check_item WHERE firing_id = $1 AND replaced_at IS NULL AND detail IS NOT NULL", firingId);
    const kg = async () => Number((await rows("SELECT max(kg) AS kg FROM lift WHERE firing_id = $1 AND standing", firingId))[0].kg);
    const [light, before] = [await kg(), await sheet()];
    await change(castingId, BIGGER);
    must(await replanRun(shed.member, anew(firingId, version)));
    expect(await kg()).toBeGreaterThan(light);
    expect(await sheet()).not.toEqual(before);
    expect(await rows("SELECT 1 FROM plan WHERE casting_id = $1", castingId)).toHaveLength(2);
    expect((await rows("SELECT action FROM audit WHERE subject_id = $1 ORDER BY audit_id", firingId)).map(({ action }) => action)).toEqual(["book-run", "replan-run"]);
  });

  it("keeps the ticks of items whose numbers stayed", async () => {
    const { castingId, firingId, version } = await booked();
    const [{ code }] = await rows("SELECT code FROM check_item WHERE firing_id = $1 AND detail IS NULL AND phase <> 'unload' ORDER BY position LIMIT 1", firingId);
    must(await answerCheck(shed.member, { firingId, code, kind: "tick" }));
    await change(castingId, BIGGER);
    must(await replanRun(shed.member, anew(firingId, version)));
    expect(await rows("SELECT 1 FROM check_item i JOIN check_answer a USING (workshop_id, firing_id, code) WHERE firing_id = $1 AND code = $2 AND replaced_at IS NULL", firingId, code)).toHaveLength(1);
  });

  it("is refused where somebody follows too soon, by name, and nothing changes", async () => {
    const { castingId, firingId, version, to } = await booked();
    await bookedRun(shed.otherMember, shed.northKiln.equipmentId, "Tern");
    await change(castingId, { ...BIGGER, piece: { shape: "ball", sizeMm: [160] } });
    const refused = await replanRun(shed.member, anew(firingId, version));
    expect(refused.ok ? "" : refused.problems[0].message).toContain("Tern");
    const after = await seen(firingId);
    expect([after.version, after.to.toString()]).toEqual([version, to.toString()]);
  });

  it("answers a repeated request with its first answer, and two at once change it once", async () => {
    const { castingId, firingId, version } = await booked();
    await change(castingId, BIGGER);
    const request = anew(firingId, version);
    const [one, two] = await Promise.all([replanRun(shed.member, request), replanRun(shed.member, request)]);
    expect(two).toEqual(one);
    expect(must(await replanRun(shed.member, request))).toEqual(must(one));
    expect((await seen(firingId)).version).toBe(version + 1);
    expect(codeOf(await replanRun(shed.member, anew(firingId, version)))).toBe("changed-meanwhile");
  });

  it("is the owner's to plan, or the manager's with a reason that the owner reads", async () => {
    const { castingId, firingId, version } = await booked();
    await change(castingId, BIGGER);
    const stranger = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await replanRun(shed.otherMember, anew(firingId, version)))).toBe("not-allowed");
    expect(codeOf(await replanRun(stranger.manager, anew(firingId, version)))).toBe("not-found");
    expect(codeOf(await replanRun(shed.manager, anew(firingId, version)))).toBe("reason-too-short");
    must(await replanRun(shed.manager, anew(firingId, version, { reason: "The piece grew by a third." })));
    expect((await rows("SELECT text FROM notice WHERE member_id = $1", shed.member.memberId)).map(({ text }) => text)).toEqual([expect.stringContaining("The piece grew by a third.")]);
  });
});

describe("kiln time given back", () => {
  it("is what was held beyond the plan, and is free for others at once", async () => {
    const { firingId, to } = await booked();
    must(await lengthenBooking(shed.member, { firingId, kilnTo: to.add({ hours: 24 * 5 }).toString() }));
    must(await shortenBooking(shed.member, { firingId, kilnTo: to.toString() }));
    expect((await seen(firingId)).to.toString()).toBe(to.toString());
    const next = await bookedRun(shed.otherMember, shed.northKiln.equipmentId, "Tern");
    const start = Temporal.Instant.from((await seen(next.firingId)).from);
    expect(Temporal.Instant.compare(start, to.add({ hours: 24 * 5 }))).toBeLessThan(0);
  });

  it("is never what the plan still needs", async () => {
    const { firingId, to } = await booked();
    expect(codeOf(await shortenBooking(shed.member, { firingId, kilnTo: to.subtract({ hours: 48 }).toString() }))).toBe("nothing-to-give");
    expect((await seen(firingId)).to.toString()).toBe(to.toString());
  });

  it("begins when somebody says that the load is cool sooner", async () => {
    const { firingId, to } = await booked();
    const cool = to.subtract({ hours: 72 });
    must(await setExpectedEnd(shed.assistant, { firingId, at: cool.toString(), reason: "The kiln cools well." }));
    const tooSoon = await shortenBooking(shed.member, { firingId, kilnTo: cool.toString() });
    expect(codeOf(tooSoon)).toBe("too-soon");
    const earliest = tooSoon.ok ? "" : String((tooSoon.problems[0].data as { kilnTo: string }).kilnTo);
    must(await shortenBooking(shed.member, { firingId, kilnTo: earliest }));
    expect((await seen(firingId)).to.toString()).toBe(earliest);
  });

  it("is asked for once however often the request is sent, and by nobody else", async () => {
    const { firingId, to, version } = await booked();
    must(await lengthenBooking(shed.member, { firingId, kilnTo: to.add({ hours: 24 * 5 }).toString() }));
    const request = { firingId, kilnTo: to.toString(), requestKey: randomUUID() };
    const first = must(await shortenBooking(shed.member, request));
    expect(must(await shortenBooking(shed.member, request))).toEqual(first);
    expect((await seen(firingId)).version).toBe(version + 2);
    const stranger = await makeWorkshop(database.ownerUrl);
    for (const who of [shed.otherMember, shed.assistant]) expect(codeOf(await shortenBooking(who, { firingId, kilnTo: to.toString() }))).toBe("not-allowed");
    expect(codeOf(await shortenBooking(stranger.manager, { firingId, kilnTo: to.toString() }))).toBe("not-found");
  });
});
