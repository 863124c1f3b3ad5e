import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
// Days with a clock change are named by date here; the clock stands before them, on a Wednesday.
process.env["LEHRBOOK_CLOCK_START"] = "2026-11-25T10:00:00Z";
const { closeDatabase } = await import("@/lib/server/db");
const { atInstant } = await import("@/lib/server/clock");
const { answerCheck } = await import("@/lib/server/commands/answer-check");
const { startFiring } = await import("@/lib/server/commands/start-firing");
const { markOpened } = await import("@/lib/server/commands/mark-opened");
const { closeSheet } = await import("@/lib/server/commands/close-sheet");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { checkSheetScreen } = await import("@/lib/server/queries/check-sheet");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { liftSheet } = await import("@/lib/server/queries/lift-sheet");
const { bookedRun, codeOf, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");

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

type Booked = { readonly firingId: string; readonly kilnFrom: Temporal.Instant; readonly unloadFrom: Temporal.Instant; readonly kilnTo: Temporal.Instant };

async function booked(): Promise<Booked> {
  shed = await makeWorkshop(database.ownerUrl);
  const { firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId);
  const screen = await firingScreen(shed.member, firingId);
  return {
    firingId,
    kilnFrom: Temporal.Instant.from(screen?.kiln.from ?? ""),
    unloadFrom: Temporal.Instant.from(screen?.unloadFrom ?? ""),
    kilnTo: Temporal.Instant.from(screen?.kiln.to ?? ""),
  };
}

async function tickAll(who: Who, firingId: string, level: "block" | "open", except: readonly string[] = []): Promise<void> {
  const sheet = await checkSheetScreen(who, firingId);
  for (const { item } of sheet?.lines ?? []) {
    if (item.level === level && !except.includes(item.code)) must(await answerCheck(who, { firingId, code: item.code, kind: "tick" }));
  }
}

const count = async (sql: string, ...values: unknown[]): Promise<number> => (await owner.query<{ n: number }>(sql, values)).rows[0]?.n ?? -1;

describe("starting a firing", () => {
  it("is refused while blocking items are open, naming each of them", async () => {
    const { firingId, kilnFrom } = await booked();
    const outcome = await atInstant(kilnFrom, () => startFiring(shed.assistant, { firingId }));
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems.map((problem) => problem.field)).toEqual(expect.arrayContaining(["W5", "L1", "T2"]));
    await tickAll(shed.member, firingId, "block", ["T3"]);
    const one = await atInstant(kilnFrom, () => startFiring(shed.assistant, { firingId }));
    expect(!one.ok && one.problems.map((problem) => problem.field)).toEqual(["T3"]);
  });

  it("goes on when the manager overrides the last one with a reason, and nobody else may", async () => {
    const { firingId, kilnFrom } = await booked();
    await tickAll(shed.member, firingId, "block", ["T3"]);
    const override = { firingId, code: "T3", kind: "override" };
    expect(codeOf(await answerCheck(shed.member, { ...override, reason: "The extraction is being repaired." }))).toBe("not-allowed");
    expect(codeOf(await answerCheck(shed.manager, { ...override, reason: "short" }))).toBe("reason-too-short");
    must(await answerCheck(shed.manager, { ...override, reason: "Doors are open, nobody is in the room." }));
    must(await atInstant(kilnFrom, () => startFiring(shed.assistant, { firingId })));
    const sheet = await checkSheetScreen(shed.member, firingId);
    const line = sheet?.lines.find(({ item }) => item.code === "T3");
    expect(line).toMatchObject({ status: "overridden", byName: shed.manager.name, reason: "Doors are open, nobody is in the room." });
  });

  it("is the owner's, an assistant's or the manager's, only once, and only in its booked time", async () => {
    const { firingId, kilnFrom, kilnTo } = await booked();
    await tickAll(shed.member, firingId, "block");
    expect(codeOf(await atInstant(kilnFrom, () => startFiring(shed.otherMember, { firingId })))).toBe("not-allowed");
    expect(codeOf(await atInstant(kilnFrom.subtract({ hours: 4 }), () => startFiring(shed.member, { firingId })))).toBe("too-early");
    expect(codeOf(await atInstant(kilnTo, () => startFiring(shed.member, { firingId })))).toBe("too-late");
    const twice = await atInstant(kilnFrom, () => Promise.all([startFiring(shed.member, { firingId }), startFiring(shed.assistant, { firingId })]));
    expect(twice.filter((outcome) => outcome.ok)).toHaveLength(1);
  });

  it("keeps a started run where it is", async () => {
    const { firingId, kilnFrom } = await booked();
    await tickAll(shed.member, firingId, "block");
    must(await atInstant(kilnFrom, () => startFiring(shed.member, { firingId })));
    const version = (await firingScreen(shed.member, firingId))?.version ?? 0;
    const moved = await atInstant(kilnFrom, () => moveRun(shed.member, { firingId, kilnId: shed.southKiln.equipmentId, kilnFrom: kilnFrom.add({ hours: 240 }).toString(), version, requestKey: "a-key-of-its-own" }));
    expect(codeOf(moved)).toBe("not-planned");
  });
});

describe("a firing that is over its time and not opened", () => {
  it("keeps its hot kiln from being offered, until it is opened", async () => {
    const { firingId, kilnFrom, kilnTo } = await booked();
    await tickAll(shed.member, firingId, "block");
    must(await atInstant(kilnFrom, () => startFiring(shed.member, { firingId })));
    const late = kilnTo.add({ minutes: 1 });
    const next = await describedCasting(shed.otherMember, "Next in line");
    const first = async () => Temporal.Instant.from((await atInstant(late, () => firstOffer(shed.otherMember, next, shed.northKiln.equipmentId))).kilnFrom);
    const whileHot = await first();
    expect(whileHot.since(late).total({ unit: "hours" })).toBeGreaterThanOrEqual(24);
    await tickAll(shed.member, firingId, "open");
    must(await atInstant(late, () => markOpened(shed.member, { firingId })));
    expect(Temporal.Instant.compare(await first(), whileHot)).toBeLessThan(0);
  });
});

describe("every tick", () => {
  it("keeps who and when, adds a line when taken back, and removes none", async () => {
    const { firingId } = await booked();
    must(await answerCheck(shed.assistant, { firingId, code: "L1", kind: "tick" }));
    must(await answerCheck(shed.member, { firingId, code: "L1", kind: "untick" }));
    const line = (await checkSheetScreen(shed.member, firingId))?.lines.find(({ item }) => item.code === "L1");
    expect(line?.status).toBe("unanswered");
    expect(line?.history.map(({ kind, byName }) => [kind, byName])).toEqual([["tick", shed.assistant.name], ["untick", shed.member.name]]);
    expect(await count("SELECT count(*)::int AS n FROM audit WHERE subject_id = $1", `${firingId}/L1`)).toBe(2);
  });

  it("cannot be reached from another workshop", async () => {
    const { firingId } = await booked();
    const stranger = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await answerCheck(stranger.manager, { firingId, code: "L1", kind: "tick" }))).toBe("not-found");
    expect(codeOf(await startFiring(stranger.manager, { firingId }))).toBe("not-found");
    expect(await checkSheetScreen(stranger.manager, firingId)).toBeNull();
    expect(await firingScreen(stranger.manager, firingId)).toBeNull();
  });
});

describe("opening and closing", () => {
  it("gives the rest of the kiln's time back, and a closed sheet never changes again", async () => {
    const { firingId, kilnFrom, unloadFrom } = await booked();
    await tickAll(shed.member, firingId, "block");
    must(await atInstant(kilnFrom, () => startFiring(shed.member, { firingId })));
    const early = unloadFrom.subtract({ hours: 24 });
    expect(codeOf(await atInstant(early, () => markOpened(shed.member, { firingId })))).not.toBe("ok");
    await tickAll(shed.member, firingId, "open");
    expect(must(await atInstant(early, () => markOpened(shed.member, { firingId }))).freed).toBe(true);
    const kilnTo = Temporal.Instant.from((await firingScreen(shed.member, firingId))?.kiln.to ?? "");
    expect(kilnTo.since(early).total({ unit: "hours" })).toBe(shed.northKiln.limits.turnaroundHours);
    expect(await count("SELECT count(*)::int AS n FROM lift WHERE firing_id = $1 AND standing AND starts_at > $2", firingId, early.toString())).toBe(0);
    must(await closeSheet(shed.member, { firingId }));
    expect(codeOf(await answerCheck(shed.manager, { firingId, code: "D1", kind: "tick" }))).toBe("sheet-closed");
    const direct = owner.query("INSERT INTO check_answer (workshop_id, firing_id, code, kind, member_id, at) VALUES ($1, $2, 'D1', 'tick', $3, now())", [shed.workshopId, firingId, shed.member.memberId]);
    await expect(direct).rejects.toMatchObject({ code: "LB001" });
    await expect(owner.query("UPDATE check_sheet SET closed_at = NULL WHERE firing_id = $1", [firingId])).rejects.toMatchObject({ code: "LB001" });
    await expect(owner.query("DELETE FROM check_answer WHERE firing_id = $1", [firingId])).rejects.toMatchObject({ code: "LB003" });
  });
});

describe("the lift sheet", () => {
  it("shows the lifts of one local day with mass by stage, and of no other day", async () => {
    const { firingId, kilnFrom } = await booked();
    const day = kilnFrom.toZonedDateTimeISO(shed.member.timeZone).toPlainDate();
    const sheet = await liftSheet(shed.assistant, day);
    const load = sheet.lifts.find((lift) => lift.firingId === firingId && lift.what === "load");
    expect(load).toMatchObject({ mouldState: "wet", trolley: expect.anything(), toPlace: expect.stringContaining("North kiln") });
    const other = await liftSheet(shed.assistant, day.add({ days: 40 }));
    expect(other.lifts).toEqual([]);
  });

  it("takes the next staffed day when none is asked for", async () => {
    shed = await makeWorkshop(database.ownerUrl);
    const saturday = Temporal.Instant.from("2027-03-13T10:00:00Z");
    const sheet = await atInstant(saturday, () => liftSheet(shed.assistant, null));
    expect(sheet).toMatchObject({ day: "2027-03-15", isDefault: true, today: "2027-03-13" });
  });

  it("counts a day of the clock change from midnight to midnight", async () => {
    const { firingId } = await booked();
    await owner.query("UPDATE lift SET starts_at = '2027-03-28T21:30:00Z', ends_at = '2027-03-28T21:45:00Z' WHERE firing_id = $1 AND what = 'unload'", [firingId]);
    const on = await liftSheet(shed.assistant, Temporal.PlainDate.from("2027-03-28"));
    const after = await liftSheet(shed.assistant, Temporal.PlainDate.from("2027-03-29"));
    expect(on.lifts.map((lift) => lift.what)).toEqual(["unload"]);
    expect(after.lifts).toEqual([]);
  });
});
