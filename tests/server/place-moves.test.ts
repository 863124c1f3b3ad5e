import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { withoutRuns } from "@/lib/domain/booking/calendar-change";
import { spansIn, stepsIn, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { loadClashState } = await import("@/lib/server/rows/clash-state");
const { readMovingRuns } = await import("@/lib/server/rows/moving-runs");
const { loadCalendar } = await import("@/lib/server/rows/taken-calendar");
const { standingTaken } = await import("@/lib/server/ways-out/moved-state");
const { tryOut } = await import("@/lib/server/ways-out/try-out");
const { clashGround } = await import("@/lib/server/ways-out/ways-out");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { bookedRun, describedCasting, must } = await import("@/tests/helpers/booking");
let owner: pg.Client;
let made: MadeWorkshop;
let first: string;
let second: string;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  made = await makeWorkshop(database.ownerUrl, { powerLimitKw: 100 });
  first = (await bookedRun(made.member, made.northKiln.equipmentId, "First")).firingId;
  second = (await bookedRun(made.otherMember, made.northKiln.equipmentId, "Second")).firingId;
  await bookedRun(made.member, made.southKiln.equipmentId, "Third");
}, 60_000);
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const kilnFrom = async (who: Who, firingId: string): Promise<Temporal.Instant> => Temporal.Instant.from((await firingScreen(who, firingId))?.kiln.from ?? "");
/** From midnight of a day so many days after a run's own, within another day. */
const onDay = async (runId: string, days: number, kilnId: string, within = 24) => {
  const day = (await kilnFrom(made.manager, runId)).toZonedDateTimeISO(made.manager.timeZone).startOfDay().add({ days });
  return { runId, isAsk: false, kilnId, from: day.toInstant(), until: day.add({ hours: within }).toInstant() };
};
const plain = ({ busy, lifts, heating }: TakenCalendar) => ({
  busy: [...busy].map(([id, lists]) => [id, lists.flatMap(spansIn).toSorted((a, b) => a.start - b.start)] as const).filter(([, all]) => all.length > 0).sort(([a], [b]) => (a < b ? -1 : 1)),
  lifts: stepsIn(lifts), heating: stepsIn(heating).toSorted((a, b) => a.start - b.start),
});

describe("moves that are placed together", () => {
  it("give up just what the database would leave out", async () => {
    const [given, left] = await inWorkshop(made.workshopId, async (tx) => {
      const at = now();
      const moving = must(await readMovingRuns(tx, [{ runId: first, isAsk: false }], at)).firings.get(first);
      if (moving === undefined) throw new Error("no run");
      const taken = standingTaken(await loadClashState(tx, made.manager, at), moving);
      return [withoutRuns(await loadCalendar(tx, at), [taken]), await loadCalendar(tx, at, first)];
    });
    expect(plain(given)).toEqual(plain(left));
    expect(given.lifts.starts.length).toBeGreaterThan(0);
  });

  it("stand as each would if it were moved by itself, and change nothing", async () => {
    const rows = async () => (await owner.query("SELECT equipment_id, purpose, starts_at, ends_at FROM booking WHERE firing_id = $1 AND standing ORDER BY 2", [second])).rows;
    const before = await rows();
    const [tried] = must(await tryOut(made.manager, [await onDay(second, 28, made.northKiln.equipmentId)]));
    expect(await rows()).toEqual(before);
    const moved = must(await moveRun(made.manager, { firingId: second, version: 1, kilnId: tried?.kilnId, kilnFrom: tried?.kilnFrom, reason: "Tried out before.", requestKey: randomUUID() }));
    expect(moved).toEqual({ firingId: second, kilnFrom: tried?.kilnFrom, kilnTo: tried?.kilnTo });
  });

  it("say every one that cannot be made, by whom its place is held, and which run it is", async () => {
    const at = (await kilnFrom(made.manager, second)).add({ hours: 1 });
    const there = { runId: first, isAsk: false, kilnId: made.northKiln.equipmentId, from: at, until: at };
    const past = { ...there, from: now().subtract({ hours: 1 }), until: now() };
    const refused = await tryOut(made.manager, [there]);
    expect(refused.ok ? [] : refused.problems).toMatchObject([{ code: "kiln-taken", data: { runId: first, holders: ["Selma Krog for Second"] } }]);
    const both = await tryOut(made.manager, [past, { ...there, runId: second, from: past.from, until: past.until }]);
    expect(both.ok ? [] : both.problems).toMatchObject([{ code: "in-the-past", data: { runId: first } }, { code: "in-the-past", data: { runId: second } }]);
  });

  it("may change places with each other, but not stand in one", async () => {
    const [a, b] = [await kilnFrom(made.manager, first), await kilnFrom(made.manager, second)];
    const to = (runId: string, at: Temporal.Instant) => ({ runId, isAsk: false, kilnId: made.northKiln.equipmentId, from: at, until: at });
    expect(must(await tryOut(made.manager, [to(second, a), to(first, b)])).map(({ runId }) => runId)).toEqual([second, first]);
    const same = await tryOut(made.manager, [to(second, a), to(first, a.add({ hours: 1 }))]);
    expect(same.ok ? "" : same.problems[0].message).toMatch(/^North kiln is taken by Selma Krog for Second until/);
  });

  it("load a mould that is steamed already within its days, however far they may be put off", async () => {
    const other = await makeWorkshop(database.ownerUrl);
    const { firingId } = await bookedRun(other.member, other.northKiln.equipmentId, "Steamed");
    for (const [table, column] of [["booking", "purpose = 'steam-out'"], ["lift", "what LIKE '%steamer'"]]) {
      await owner.query(`UPDATE ${table} SET starts_at = starts_at - interval '7 days', ends_at = ends_at - interval '7 days' WHERE firing_id = $1 AND ${column}`, [firingId]);
    }
    const [steam] = (await owner.query("SELECT ends_at FROM booking WHERE firing_id = $1 AND purpose = 'steam-out'", [firingId])).rows;
    const last = Temporal.Instant.fromEpochMilliseconds(steam.ends_at.getTime()).add({ hours: 22 * 24 });
    const to = (hoursFrom: number, hoursUntil: number) => tryOut(other.manager, [{ runId: firingId, isAsk: false, kilnId: other.northKiln.equipmentId, from: last.add({ hours: hoursFrom }), until: last.add({ hours: hoursUntil }) }]);
    const [placed] = must(await to(-72, 72));
    expect(Temporal.Instant.compare(Temporal.Instant.from(placed?.kilnFrom ?? ""), last)).toBeLessThanOrEqual(0);
    const late = await to(1, 72);
    expect(late.ok ? [] : late.problems).toMatchObject([{ code: "steamed-too-long", data: { runId: firingId } }]);
  });

  it("book what is asked for as if each had been booked by itself", async () => {
    const { member, otherMember, manager, northKiln } = made;
    const asked: string[] = [];
    for (const who of [member, otherMember]) {
      const castingId = await describedCasting(who, "Asked");
      const fromDate = (await kilnFrom(manager, first)).add({ hours: 60 * 24 }).toString().slice(0, 10);
      asked.push(must(await createAsk(who, { castingId, kilnId: northKiln.equipmentId, fromDate, importance: 2, note: "" })).askId);
    }
    const wanted = await Promise.all(asked.map(async (runId, i) => ({ ...(await onDay(first, 70 + 21 * i, northKiln.equipmentId, 96)), runId, isAsk: true })));
    const moves = must(await tryOut(manager, wanted)).map(({ runId, kilnId, kilnFrom: at }) => ({ runId, kilnId, kilnFrom: at }));
    const { fingerprint } = await clashGround(manager, undefined);
    must(await acceptSettlement(manager, { kind: "by-hand", fingerprint, reason: "Both fit in that month.", requestKey: randomUUID(), moves }));
    const opened = (await owner.query<{ firing_id: string }>("SELECT s.firing_id FROM ask a JOIN firing_casting s USING (workshop_id, casting_id) WHERE a.ask_id = ANY ($1) AND a.status = 'met' AND a.answer = 'Booked by Marit Toft.'", [asked])).rows;
    expect(opened).toHaveLength(2);
    const all = async (firingId: string) => (await owner.query(`
      SELECT p.calculation, p.inputs, p.outputs, f.status, f.purposes, f.heating_hours, f.version, c.template_version,
             (SELECT json_agg(json_build_array(code, position, phase, text, why, source, level, scope, detail, forbids, replaced_at) ORDER BY position) FROM check_item i WHERE i.firing_id = f.firing_id) AS items,
             (SELECT json_agg(json_build_array(what, kg, hands, trolley_id, mould_state, hot, wet, flag, why, from_place, to_place, ends_at - starts_at) ORDER BY starts_at) FROM lift l WHERE l.firing_id = f.firing_id AND standing) AS lifts,
             (SELECT json_agg(json_build_array(purpose, equipment_id, casting_id IS NULL, starts_at < ends_at) ORDER BY starts_at) FROM booking b WHERE b.firing_id = f.firing_id AND standing) AS bookings
        FROM firing f JOIN plan p USING (workshop_id, plan_id) JOIN check_sheet c USING (workshop_id, firing_id) WHERE f.firing_id = $1`, [firingId])).rows[0];
    const booked = await all(first);
    expect(booked.items.length).toBeGreaterThan(10);
    for (const { firing_id: firingId } of opened) expect(await all(firingId)).toEqual(booked);
    const told = await owner.query("SELECT DISTINCT member_id FROM notice WHERE workshop_id = $1 AND text LIKE 'Marit Toft booked North kiln from % for Asked: Both fit in that month.'", [made.workshopId]);
    expect(told.rowCount).toBe(2);
  });

  it("wait for nobody while they are tried out", async () => {
    await owner.query("BEGIN");
    await owner.query("SELECT FROM firing WHERE workshop_id = $1 FOR UPDATE", [made.workshopId]);
    await owner.query("SELECT pg_advisory_xact_lock(hashtextextended($1, 0))", [`${made.workshopId}:calendar`]);
    const tried = await tryOut(made.manager, [await onDay(first, 42, made.southKiln.equipmentId, 72)]);
    await owner.query("ROLLBACK");
    expect(must(tried)).toHaveLength(1);
  });
});
