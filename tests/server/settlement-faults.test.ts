import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { once } from "node:events";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { NOTHING_ASKED } from "@/lib/contracts/ways-out";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { setPowerLimit } = await import("@/lib/server/commands/set-power-limit");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { planSeason } = await import("@/lib/server/replan/plan-season");
const { SeasonWatch } = await import("@/lib/server/replan/season-watch");
const { tryOut } = await import("@/lib/server/ways-out/try-out");
const { clashGround } = await import("@/lib/server/ways-out/ways-out");
const { accepting, askedWays, brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { bookedRun, codeOf, must } = await import("@/tests/helpers/booking");
const { shared } = await import("@/tests/helpers/sharing");
let owner: pg.Client;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;
const standing = (workshopId: string) => rows("SELECT firing_id, equipment_id, purpose, starts_at, ends_at FROM booking WHERE workshop_id = $1 AND standing ORDER BY 1, 3, 4", workshopId);
const kilnOf = async (who: Who, firingId: string) => {
  const kiln = (await firingScreen(who, firingId))?.kiln;
  if (kiln === undefined) throw new Error("no kiln");
  return { id: kiln.id, from: Date.parse(kiln.from), to: Date.parse(kiln.to) };
};
const outage = (from: number, days: number) => ({ from: new Date(from).toISOString().slice(0, 16), to: new Date(from + days * 86_400_000).toISOString().slice(0, 16), reason: "a burnt element" });

describe("a settlement respects", () => {
  it("a shared firing: it moves as one, on its own kiln, and everybody in it is told and may answer", async () => {
    const { member, otherMember, manager, northKiln, workshopId } = await makeWorkshop(database.ownerUrl);
    const { firingId } = await shared(member, otherMember, northKiln.equipmentId);
    const before = await kilnOf(member, firingId);
    must(await beginOutage(manager, { equipmentId: northKiln.equipmentId, ...outage(before.from + 3 * 3_600_000, 4) }));
    const found = await askedWays(manager);
    const { settlementId } = must(await acceptSettlement(manager, accepting(found, found.ways[0])));
    const after = await kilnOf(member, firingId);
    expect({ kiln: after.id, later: after.from > before.from }).toEqual({ kiln: before.id, later: true });
    expect(await rows("SELECT count(*)::int AS n FROM firing_casting WHERE firing_id = $1 AND standing", firingId)).toEqual([{ n: 2 }]);
    const told = await rows("SELECT member_id FROM settlement_told WHERE workshop_id = $1 AND settlement_id = $2 ORDER BY 1", workshopId, settlementId);
    expect(told.map((row) => row.member_id)).toEqual([member.memberId, otherMember.memberId].sort());
    expect(await clashesScreen(manager, undefined)).toEqual([]);
  }, 60_000);

  it("the electrician's limit: kilns that may not heat together do not", async () => {
    const { member, otherMember, manager, northKiln, southKiln } = await makeWorkshop(database.ownerUrl);
    const north = await bookedRun(member, northKiln.equipmentId, "First");
    const south = await bookedRun(otherMember, southKiln.equipmentId, "Second");
    must(await setPowerLimit(manager, { kw: 20 }));
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    must(await setPowerLimit(manager, { kw: 19.9 }));
    expect((await clashesScreen(manager, undefined)).map(({ kind }) => kind)).toEqual(["overload"]);
    const found = await askedWays(manager);
    for (const { figures } of found.ways) expect(figures.moved).toBe(1);
    must(await acceptSettlement(manager, accepting(found, found.ways[0])));
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    const [a, b] = [await kilnOf(member, north.firingId), await kilnOf(otherMember, south.firingId)];
    expect(a.from).not.toBe(b.from);
  }, 60_000);

  it("the kilns: runs that change them are planned and checked for their new ones", async () => {
    const { member, otherMember, manager, northKiln, southKiln } = await makeWorkshop(database.ownerUrl);
    const north = await bookedRun(member, northKiln.equipmentId, "First");
    const south = await bookedRun(otherMember, southKiln.equipmentId, "Second");
    const { fingerprint } = await clashGround(manager, undefined);
    const later = (from: number) => new Date(from + 28 * 86_400_000).toISOString();
    const [a, b] = [await kilnOf(member, north.firingId), await kilnOf(otherMember, south.firingId)];
    const moves = [{ runId: north.firingId, kilnId: southKiln.equipmentId, kilnFrom: later(a.from) }, { runId: south.firingId, kilnId: northKiln.equipmentId, kilnFrom: later(b.from + 2 * 86_400_000) }];
    const tried = must(await tryOut(manager, moves.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, isAsk: false, from: Temporal.Instant.from(kilnFrom), until: Temporal.Instant.from(kilnFrom).add({ hours: 96 }) }))));
    must(await acceptSettlement(manager, { kind: "by-hand", fingerprint, reason: SETTLED_REASON, requestKey: randomUUID(), moves: tried.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom })) }));
    const plans = await rows("SELECT f.firing_id, p.inputs->'kiln'->>'powerKw' AS kw, (SELECT count(*)::int FROM check_item i WHERE i.firing_id = f.firing_id AND i.replaced_at IS NOT NULL) AS replaced, (SELECT count(DISTINCT split_part(code, '/', 1))::int - count(*) FILTER (WHERE replaced_at IS NULL)::int FROM check_item i WHERE i.firing_id = f.firing_id) AS lost FROM firing f JOIN plan p USING (workshop_id, plan_id) WHERE f.firing_id = ANY ($1)", [north.firingId, south.firingId]);
    expect(plans.find((row) => row.firing_id === north.firingId)).toMatchObject({ kw: "8", lost: 0 });
    expect(plans.find((row) => row.firing_id === south.firingId)).toMatchObject({ kw: "12", lost: 0 });
    for (const { replaced } of plans) expect(replaced).toBeGreaterThan(0);
  }, 60_000);

  it("two runs that change places with each other, in one transaction", async () => {
    const { member, otherMember, manager, northKiln } = await makeWorkshop(database.ownerUrl);
    const first = await bookedRun(member, northKiln.equipmentId, "First");
    const second = await bookedRun(otherMember, northKiln.equipmentId, "Second");
    const [early, late] = [await kilnOf(member, first.firingId), await kilnOf(otherMember, second.firingId)];
    const { fingerprint } = await clashGround(manager, undefined);
    const to = (firingId: string, at: number) => ({ runId: firingId, kilnId: northKiln.equipmentId, kilnFrom: new Date(at).toISOString() });
    const order = { kind: "by-hand", fingerprint, reason: SETTLED_REASON, requestKey: randomUUID(), moves: [to(second.firingId, early.from), to(first.firingId, late.from)] };
    must(await acceptSettlement(manager, order));
    expect((await kilnOf(otherMember, second.firingId)).from).toBe(early.from);
    expect((await kilnOf(member, first.firingId)).from).toBe(late.from);
  }, 60_000);
});

describe("a settlement is made whole or not at all", () => {
  // The first record is written after the first run's bookings; the settlement after every move.
  it.each(["audit", "settlement"])("when its server is killed while it waits to write its %s", async (table) => {
    const { manager, workshopId } = await brokenKiln(database.ownerUrl);
    const found = await askedWays(manager);
    const way = found.ways.find(({ figures }) => figures.moved > 0);
    const order = accepting(found, way);
    const before = await standing(workshopId);
    const holder = new pg.Client({ connectionString: database.ownerUrl });
    await holder.connect();
    await holder.query("BEGIN");
    await holder.query(`LOCK TABLE ${table} IN EXCLUSIVE MODE`);
    const server = spawn(process.execPath, ["--no-deprecation", "--import", "tsx", "tests/helpers/accepting-process.ts"], { env: { ...process.env, NODE_ENV: "test", ACCEPTING: JSON.stringify({ who: manager, order }) }, stdio: "ignore" });
    await vi.waitFor(async () => expect(await rows("SELECT FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock' AND query ILIKE $1", `%INTO%${table}%`)).toHaveLength(1), { timeout: 60_000, interval: 50 });
    server.kill("SIGKILL");
    await once(server, "exit");
    await holder.query("COMMIT");
    await holder.end();
    await vi.waitFor(async () => expect(await rows("SELECT FROM pg_locks WHERE locktype = 'advisory' AND database = (SELECT oid FROM pg_database WHERE datname = current_database())")).toEqual([]), { timeout: 30_000 });
    expect(await standing(workshopId)).toEqual(before);
    expect(await rows("SELECT FROM settlement WHERE workshop_id = $1", workshopId)).toEqual([]);
    expect(await rows("SELECT FROM notice WHERE workshop_id = $1 AND text LIKE $2", workshopId, `%${SETTLED_REASON}`)).toEqual([]);
    must(await acceptSettlement(manager, order));
    expect(await rows("SELECT FROM settlement WHERE workshop_id = $1", workshopId)).toHaveLength(1);
  }, 120_000);

  it("when a member cancels while it is worked out: the plan is made again from what is there", async () => {
    const { manager, otherMember, first, second, workshopId } = await brokenKiln(database.ownerUrl);
    let cancelled = false;
    const watch = new SeasonWatch(async ({ state }) => {
      if (state === "placing" && !cancelled) {
        cancelled = true;
        must(await cancelRun(otherMember, { firingId: second.firingId }));
      }
      return "go on";
    });
    const { today } = await clashGround(manager, undefined);
    const plan = must(await planSeason({ who: manager, span: { from: today, to: today.add({ months: 4 }) }, seconds: 3, iterations: 60, watch }));
    expect(cancelled).toBe(true);
    expect(plan.times.map(({ runId }) => runId)).toEqual([first.firingId]);
    expect(plan.fingerprint).toBe((await clashGround(manager, { from: today, to: today.add({ months: 4 }) })).fingerprint);
    expect(await rows("SELECT FROM settlement WHERE workshop_id = $1", workshopId)).toEqual([]);
  }, 60_000);

  it.each([
    ["a firing is said to be late", "changed-meanwhile", "UPDATE firing SET expected_end = now() + interval '200 days', version = version + 1 WHERE firing_id = $1"],
    ["somebody writes what is of no account to it", "ok", "UPDATE lift SET why = 'heavy' WHERE firing_id = $1"],
  ])("when, while it waits for the calendar, %s", async (_what, code, statement) => {
    const { manager, first, workshopId } = await brokenKiln(database.ownerUrl);
    const found = await askedWays(manager);
    const before = await standing(workshopId);
    const holder = new pg.Client({ connectionString: database.ownerUrl });
    await holder.connect();
    await holder.query("BEGIN");
    await holder.query("SELECT pg_advisory_xact_lock(hashtextextended($1, 0))", [`${workshopId}:calendar`]);
    const outcome = acceptSettlement(manager, accepting(found, found.ways.find(({ figures }) => figures.moved > 0)));
    await vi.waitFor(async () => expect(await rows("SELECT FROM pg_stat_activity WHERE datname = current_database() AND wait_event = 'advisory'")).toHaveLength(1), { timeout: 60_000, interval: 20 });
    await holder.query(statement, [first.firingId]);
    await holder.query("COMMIT");
    await holder.end();
    expect(codeOf(await outcome)).toBe(code);
    if (code !== "ok") expect(await standing(workshopId)).toEqual(before);
  }, 60_000);

  it("when a member cancels between the look and the acceptance", async () => {
    const { manager, member, first, workshopId } = await brokenKiln(database.ownerUrl);
    const found = await askedWays(manager, NOTHING_ASKED);
    must(await cancelRun(member, { firingId: first.firingId }));
    const before = await standing(workshopId);
    expect(codeOf(await acceptSettlement(manager, accepting(found, found.ways[0])))).toBe("changed-meanwhile");
    expect(await standing(workshopId)).toEqual(before);
  }, 60_000);
});
