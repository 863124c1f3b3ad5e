import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { addClosure } = await import("@/lib/server/commands/add-closure");
const { removeClosure } = await import("@/lib/server/commands/remove-closure");
const { setPowerLimit } = await import("@/lib/server/commands/set-power-limit");
const { setStaffedHours } = await import("@/lib/server/commands/set-staffed-hours");
const { loadHours } = await import("@/lib/server/rows/workshop-hours");
const { setTomorrowHour } = await import("@/lib/server/commands/set-tomorrow-hour");
const { mailChoices } = await import("@/lib/server/queries/mail-choices");
const { workshopHours } = await import("@/lib/server/queries/workshop-hours");
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
});

type Answer = { ok: true } | { ok: false; problems: readonly { code: string; message: string; field?: string }[] };
const codeOf = (outcome: Answer) => (outcome.ok ? "ok" : outcome.problems[0]?.code);
const record = () => auditRows(database.ownerUrl, made.workshopId);
const hours = () => inWorkshop(made.workshopId, (tx) => loadHours(tx, made.manager));
const span = (weekday: number, opens: string, closes: string, hands: number | string = 2) => ({ weekday, opens, closes, hands });

describe("setting the staffed hours", () => {
  it("replaces the whole week, reads clock times and is recorded in words", async () => {
    const weekly = [span(2, "09:00", "12:30", "3"), span(2, "12:30", "24:00"), span(7, "00:00", "00:00", 1)];
    expect(await setStaffedHours(made.manager, { weekly })).toEqual({ ok: true, value: { days: 2, thinLifts: 0 } });
    expect((await hours()).weekly).toEqual([
      { weekday: 2, opensMin: 540, closesMin: 750, hands: 3 },
      { weekday: 2, opensMin: 750, closesMin: 1440, hands: 2 },
      { weekday: 7, opensMin: 0, closesMin: 1440, hands: 1 },
    ]);
    const [row] = await record();
    expect(row).toMatchObject({ action: "set-staffed-hours", after: ["Tuesday 09:00 to 12:30, hands 3", "Tuesday 12:30 to 24:00, hands 2", "Sunday 00:00 to 24:00, hands 1"] });
    expect(row?.before).toHaveLength(6);
  });

  it("refuses hours that overlap on a day, naming the day and both, and keeps the old ones", async () => {
    const refused = await setStaffedHours(made.manager, { weekly: [span(3, "09:00", "13:00"), span(3, "12:59", "18:00")] });
    expect(refused).toMatchObject({ ok: false, problems: [{ code: "hours-overlap", field: "weekly.1.opens" }] });
    const message = refused.ok ? "" : refused.problems[0].message;
    expect(message).toContain("Wednesday");
    expect(message).toContain("12:59 to 18:00");
    expect((await hours()).weekly).toHaveLength(6);
    expect(await record()).toEqual([]);
  });

  it.each([
    ["closing before opening", span(1, "18:00", "09:00"), "weekly.0.closes"],
    ["closing when opening", span(1, "09:00", "09:00"), "weekly.0.closes"],
    ["no hands", span(1, "09:00", "18:00", 0), "weekly.0.hands"],
    ["half a person", span(1, "09:00", "18:00", "1.5"), "weekly.0.hands"],
    ["51 hands", span(1, "09:00", "18:00", 51), "weekly.0.hands"],
    ["an hour of none", span(1, "09:00", "25:00"), "weekly.0.closes"],
    ["an eighth day", span(8, "09:00", "18:00"), "weekly.0.weekday"],
  ])("refuses %s and leads to the field", async (_name, wrong, field) => {
    expect(await setStaffedHours(made.manager, { weekly: [wrong] })).toMatchObject({ ok: false, problems: [{ field }] });
  });

  it("may leave the workshop without any, and does not touch another's", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await setStaffedHours(made.manager, { weekly: [] }))).toBe("ok");
    expect((await hours()).weekly).toEqual([]);
    expect((await inWorkshop(other.workshopId, (tx) => loadHours(tx, other.manager))).weekly).toHaveLength(6);
  });

  it("is whole when two managers set it at the same instant", async () => {
    const weeks = [[span(1, "09:00", "12:00")], [span(1, "10:00", "15:00"), span(2, "10:00", "15:00")]];
    const outcomes = await Promise.all(weeks.map((weekly) => setStaffedHours(made.manager, { weekly })));
    expect(outcomes.map(codeOf)).toEqual(["ok", "ok"]);
    expect([1, 2]).toContain((await hours()).weekly.length);
  });
});

describe("closing the workshop", () => {
  const close = (from: string, to?: string) => addClosure(made.manager, { from, ...(to === undefined ? {} : { to }), reason: "Winter break" });

  it("takes whole days, or one day when no last day is given, and is recorded", async () => {
    expect(codeOf(await close("2030-12-23", "2031-01-02"))).toBe("ok");
    expect(codeOf(await close("2030-05-01", ""))).toBe("ok");
    expect((await hours()).closures).toEqual([
      { from: "2030-05-01", to: "2030-05-01", reason: "Winter break" },
      { from: "2030-12-23", to: "2031-01-02", reason: "Winter break" },
    ]);
    expect(await record()).toMatchObject([{ action: "add-closure", after: { from: "2030-12-23", to: "2031-01-02" }, reason: "Winter break" }, { action: "add-closure" }]);
  });

  it("refuses days that overlap another closure, naming it; the days beside it are free", async () => {
    await close("2030-12-23", "2031-01-02");
    for (const [from, to] of [["2031-01-02", "2031-01-05"], ["2030-12-20", "2030-12-23"], ["2030-12-25", "2030-12-26"], ["2030-12-01", "2031-02-01"]] as const) {
      const refused = await close(from, to);
      expect(codeOf(refused)).toBe("closures-overlap");
      expect(refused).toMatchObject({ problems: [{ message: expect.stringContaining("Mon 23 Dec to Thu 2 Jan (Winter break)") }] });
    }
    expect(codeOf(await close("2031-01-03", "2031-01-05"))).toBe("ok");
    expect(codeOf(await close("2030-12-20", "2030-12-22"))).toBe("ok");
  });

  it("refuses a last day before the first, days that are past, more than a year, and no date", async () => {
    const codes = await Promise.all(
      ([["2030-05-02", "2030-05-01"], ["2020-05-01", "2020-05-02"], ["2030-01-01", "2031-01-02"], ["2030-02-30", undefined], ["", undefined]] as const).map(
        async ([from, to]) => codeOf(await close(from, to)),
      ),
    );
    expect(codes).toEqual(["end-before-start", "is-over", "out-of-range", "not-allowed", "not-allowed"]);
    expect(codeOf(await close("2030-01-01", "2031-01-01"))).toBe("ok");
  });

  it("lets one of two overlapping closures entered at the same instant win", async () => {
    const codes = (await Promise.all([close("2030-05-01", "2030-05-03"), close("2030-05-03", "2030-05-05")])).map(codeOf);
    expect(codes.sort()).toEqual(["closures-overlap", "ok"]);
  });

  it("is taken back once, recorded with what stood; another workshop's is not found", async () => {
    const closed = await close("2030-05-01");
    const closureId = closed.ok ? closed.value.closureId : "";
    const other = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await removeClosure(other.manager, { closureId }))).toBe("not-found");
    expect(codeOf(await removeClosure(made.manager, { closureId }))).toBe("ok");
    expect(codeOf(await removeClosure(made.manager, { closureId }))).toBe("not-found");
    expect(codeOf(await removeClosure(made.manager, { closureId: randomUUID() }))).toBe("not-found");
    expect((await record()).at(-1)).toMatchObject({ action: "remove-closure", before: { from: "2030-05-01", reason: "Winter break" } });
  });
});

describe("the electrician's limit", () => {
  it("is set, recorded with what stood before, and taken away again", async () => {
    expect(await setPowerLimit(made.manager, { kw: 18.5 })).toEqual({ ok: true, value: { kw: 18.5, tooStrong: [] } });
    expect(await setPowerLimit(made.manager, { kw: null })).toMatchObject({ ok: true });
    expect(await record()).toMatchObject([
      { action: "set-power-limit", before: { powerLimitKw: null }, after: { powerLimitKw: 18.5 } },
      { before: { powerLimitKw: 18.5 }, after: { powerLimitKw: null } },
    ]);
  });

  it("names the kilns that alone need more than it allows, not one that needs exactly that", async () => {
    expect(await setPowerLimit(made.manager, { kw: 12 })).toMatchObject({ value: { tooStrong: [] } });
    expect(await setPowerLimit(made.manager, { kw: 11.9 })).toMatchObject({ value: { tooStrong: ["North kiln"] } });
  });

  it.each([0, -3, 0.99, 2000.5, Number.NaN, "18", undefined])("refuses %j, naming the range", async (kw) => {
    expect(await setPowerLimit(made.manager, { kw })).toMatchObject({ ok: false, problems: [{ field: "kw", message: expect.stringContaining("1 to 2000 kW, or none") }] });
  });

  it("takes both ends of the range", async () => {
    expect(codeOf(await setPowerLimit(made.manager, { kw: 1 }))).toBe("ok");
    expect(codeOf(await setPowerLimit(made.manager, { kw: 2000 }))).toBe("ok");
  });
});

describe("the hour at which tomorrow is mailed", () => {
  it("is five in the afternoon until the manager says another, for the whole workshop, on record", async () => {
    expect((await workshopHours(made.manager, undefined)).tomorrowHour).toBe(17);
    expect(await setTomorrowHour(made.manager, { hour: "7" })).toEqual({ ok: true, value: { hour: 7 } });
    expect((await workshopHours(made.manager, undefined)).tomorrowHour).toBe(7);
    expect((await mailChoices(made.member, undefined)).tomorrowHour).toBe(7);
    expect((await record())[0]).toMatchObject({ action: "set-tomorrow-hour", before: { tomorrowMailedFrom: "17:00" }, after: { tomorrowMailedFrom: "07:00" } });
    const other = await makeWorkshop(database.ownerUrl);
    expect((await workshopHours(other.manager, undefined)).tomorrowHour).toBe(17);
  });

  it.each([["-1", false], ["0", true], ["23", true], ["24", false], ["6.5", false], ["", false], [null, false]])("%s: kept is %s", async (hour, kept) => {
    const outcome = await setTomorrowHour(made.manager, { hour });
    expect(outcome.ok).toBe(kept);
    if (!outcome.ok) expect(outcome.problems[0]).toMatchObject({ field: "hour", message: "The hour must be a whole number, 0 to 23." });
  });

  it("is not for members to say", async () => {
    expect(codeOf(await setTomorrowHour(made.member, { hour: "7" }))).toBe("not-allowed");
  });
});
