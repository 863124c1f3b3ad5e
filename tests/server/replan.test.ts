import { type ChildProcess, spawn } from "node:child_process";
import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { randomUUID } from "node:crypto";
import type { SeasonPlan } from "@/lib/contracts/replan";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { askReplan } = await import("@/lib/server/commands/ask-replan");
const { stopReplan } = await import("@/lib/server/commands/stop-replan");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { seasonScreen } = await import("@/lib/server/queries/season");
const { computeReplan } = await import("@/lib/server/replan/compute-replan");
const { planSeason } = await import("@/lib/server/replan/plan-season");
const { SeasonWatch } = await import("@/lib/server/replan/season-watch");
const { brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { codeOf, describedCasting, must } = await import("@/tests/helpers/booking");
let owner: pg.Client;
let workers: ChildProcess[] = [];

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterEach(() => {
  for (const worker of workers) worker.kill("SIGKILL");
  workers = [];
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const today = Temporal.Now.zonedDateTimeISO("Europe/Copenhagen").toPlainDate();
const season = (months = 6) => ({ from: today.toString(), to: today.add({ months }).toString(), seconds: 20 });
const screen = async (who: Who) => {
  const found = await seasonScreen(who, undefined);
  if (found === null) throw new Error("no season");
  return found;
};
const standing = async (workshopId: string): Promise<unknown> => (await owner.query("SELECT firing_id, equipment_id, purpose, starts_at FROM booking WHERE workshop_id = $1 AND standing ORDER BY 1, 3, 4", [workshopId])).rows;
const accepting = (replanId: string, plan: SeasonPlan | null) => ({
  kind: "season", replanId, fingerprint: plan?.fingerprint, reason: SETTLED_REASON, requestKey: randomUUID(),
  moves: (plan?.times ?? []).map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom })),
});

/** A kiln that breaks under two runs, and an ask that names no weeks. */
async function crowded() {
  const made = await brokenKiln(database.ownerUrl);
  const castingId = await describedCasting(made.otherMember, "Third");
  const { askId } = must(await createAsk(made.otherMember, { castingId, fromDate: today.add({ days: 7 }).toString(), neededBy: today.add({ months: 3 }).toString(), importance: 2, note: "" }));
  return { ...made, askId };
}

async function planned() {
  const made = await crowded();
  const { replanId } = must(await askReplan(made.manager, season()));
  await computeReplan({ workshopId: made.workshopId, replanId });
  return { ...made, replanId };
}

describe("a season planned anew", () => {
  it("holds every ask and every run that may move, to the quarter hour, and moves nothing", async () => {
    const made = await crowded();
    const before = await standing(made.workshopId);
    const { replanId } = must(await askReplan(made.manager, season()));
    expect(await screen(made.manager)).toMatchObject({ state: "waiting", replanId, ran: null });
    await computeReplan({ workshopId: made.workshopId, replanId });
    const { state, plan, runs } = await screen(made.manager);
    expect({ state, runs, aside: plan?.aside }).toEqual({ state: "ready", runs: 3, aside: [] });
    expect(plan?.figures).toMatchObject({ moved: 2, asksPlaced: 1 });
    expect(plan?.times.map(({ runId }) => runId).sort()).toEqual([made.askId, made.first.firingId, made.second.firingId].sort());
    expect((plan?.bound ?? 0) <= (plan?.cost ?? -1)).toBe(true);
    expect(await standing(made.workshopId)).toEqual(before);
  });

  it("is accepted as a way out is: whole, once, and not when anything has changed", async () => {
    const { manager, workshopId, replanId } = await planned();
    const { plan } = await screen(manager);
    const both = await Promise.all([1, 2].map(() => acceptSettlement(manager, accepting(replanId, plan))));
    expect(both.map(codeOf).filter((code) => code === "ok")).toHaveLength(1);
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    expect((await screen(manager)).settlementId).not.toBeNull();
    expect((await owner.query("SELECT kind, jsonb_array_length(moves) AS moves FROM settlement WHERE workshop_id = $1", [workshopId])).rows).toEqual([{ kind: "season", moves: 3 }]);

    const other = await planned();
    const stale = await screen(other.manager);
    must(await cancelRun(other.otherMember, { firingId: other.second.firingId }));
    const standsStill = await standing(other.workshopId);
    expect(codeOf(await acceptSettlement(other.manager, accepting(other.replanId, stale.plan)))).toBe("changed-meanwhile");
    expect(await standing(other.workshopId)).toEqual(standsStill);
    const again = must(await askReplan(other.manager, season()));
    await computeReplan({ workshopId: other.workshopId, replanId: again.replanId });
    const now = await screen(other.manager);
    expect(now.before?.moves).toEqual(stale.plan?.moves);
    expect(now.plan?.figures).toMatchObject({ moved: 1, asksPlaced: 1 });
  });

  it("keeps to its days: nothing outside is moved, and what would leave them stays", async () => {
    const made = await crowded();
    const { replanId } = must(await askReplan(made.manager, { from: today.add({ months: 4 }).toString(), to: today.add({ months: 8 }).toString(), seconds: 20 }));
    await computeReplan({ workshopId: made.workshopId, replanId });
    const { plan } = await screen(made.manager);
    expect(plan?.times.map(({ runId }) => runId)).toEqual([made.askId]);
    expect(plan?.times.every(({ kilnFrom, kilnTo }) => kilnFrom.slice(0, 10) >= today.add({ months: 4 }).toString() && kilnTo.slice(0, 10) <= today.add({ months: 8 }).toString())).toBe(true);
    const { replanId: short } = must(await askReplan(made.manager, { from: today.toString(), to: today.add({ days: 4 }).toString(), seconds: 20 }));
    await computeReplan({ workshopId: made.workshopId, replanId: short });
    expect((await screen(made.manager)).plan).toMatchObject({ moves: [], aside: ["Third: asked for later than the season reaches."] });
  });

  it.each([
    ["begins today, ends tomorrow", 0, { days: 1 }, "ok"],
    ["begins yesterday", -1, { months: 1 }, "in-the-past"],
    ["ends on the day it begins", 3, { days: 0 }, "out-of-range"],
    ["is 18 months long", 0, { months: 18 }, "ok"],
    ["is a day longer", 0, { months: 18, days: 1 }, "out-of-range"],
  ])("has days that can be: %s", async (_what, begins, length, code) => {
    const { manager } = await brokenKiln(database.ownerUrl);
    const from = today.add({ days: begins });
    expect(codeOf(await askReplan(manager, { from: from.toString(), to: from.add(length).toString(), seconds: 20 }))).toBe(code);
  });
});

describe("a season without a day to spare", () => {
  it("places runs close behind each other in the hours there are, and leaves waiting only what has no room", async () => {
    const { manager, member, northKiln, southKiln } = await makeWorkshop(database.ownerUrl);
    for (let i = 0; i < 8; i++) {
      const castingId = await describedCasting(member, `Piece ${i}`);
      must(await createAsk(member, { castingId, fromDate: today.add({ days: 2 }).toString(), neededBy: today.add({ days: 20 }).toString(), importance: 2, note: "" }));
    }
    const span = { from: today, to: today.add({ days: 27 }) };
    const plan = must(await planSeason({ who: manager, span, seconds: 3, iterations: 60, watch: new SeasonWatch(async () => "go on") }));
    expect(plan.times.length + plan.aside.length).toBe(8);
    expect(plan.times.length).toBeGreaterThanOrEqual(7);
    for (const kiln of [northKiln, southKiln]) {
      const held = plan.times.filter(({ kilnId }) => kilnId === kiln.equipmentId).toSorted((a, b) => a.kilnFrom.localeCompare(b.kilnFrom));
      held.slice(1).forEach((next, i) => expect(Date.parse(held[i]?.kilnTo ?? "")).toBeLessThanOrEqual(Date.parse(next.kilnFrom)));
    }
    expect(plan.bound <= plan.cost).toBe(true);
    expect(plan.moves.map(({ runId }) => runId).sort()).toEqual(plan.times.map(({ runId }) => runId).sort());
  }, 120_000);
});

describe("planning in the background", () => {
  it("is one at a time, can be stopped at any time, and then has the best so far", async () => {
    const made = await crowded();
    const { replanId } = must(await askReplan(made.manager, { ...season(), seconds: 600 }));
    expect(codeOf(await askReplan(made.manager, season()))).toBe("already-running");
    // Held up while it reads the calendar, so that it has begun and is not over.
    await owner.query("BEGIN");
    await owner.query("LOCK TABLE outage IN ACCESS EXCLUSIVE MODE");
    const computing = computeReplan({ workshopId: made.workshopId, replanId });
    await vi.waitFor(async () => expect((await screen(made.manager)).state).toBe("searching"), { timeout: 20_000, interval: 20 });
    must(await stopReplan(made.manager, { replanId }));
    await owner.query("COMMIT");
    await computing;
    const { state, plan, ran } = await screen(made.manager);
    expect(state).toBe("ready");
    expect(plan?.moves.length).toBeGreaterThan(0);
    expect((ran ?? 600) < 600).toBe(true);
    expect(codeOf(await stopReplan(made.manager, { replanId }))).toBe("not-found");
  });

  it("is given up when it is stopped before anybody has begun it", async () => {
    const { manager, workshopId } = await crowded();
    const { replanId } = must(await askReplan(manager, season()));
    must(await stopReplan(manager, { replanId }));
    await computeReplan({ workshopId, replanId });
    expect((await screen(manager)).state).toBe("lost");
  });

  it("is seen to be broken off when its process was killed, is begun anew by another, and can be asked for again", async () => {
    const { manager, workshopId } = await crowded();
    const { replanId } = must(await askReplan(manager, { ...season(), seconds: 600 }));
    const begun = async () => (await owner.query("SELECT worker_id FROM replan WHERE replan_id = $1 AND state = 'searching'", [replanId])).rows[0]?.worker_id as string | undefined;
    startWorker();
    await vi.waitFor(async () => expect(await begun()).toBeTruthy(), { timeout: 60_000, interval: 50 });
    const first = await begun();
    for (const worker of workers) worker.kill("SIGKILL");
    const aged = (seconds: number) => owner.query("UPDATE replan SET beat_at = clock_timestamp() - $2 * interval '1 s' WHERE replan_id = $1", [replanId, seconds]);
    await aged(10);
    expect((await screen(manager)).state).not.toBe("stale");
    await aged(21);
    expect((await screen(manager)).state).toBe("stale");

    startWorker();
    await vi.waitFor(async () => expect([first, undefined]).not.toContain(await begun()), { timeout: 60_000, interval: 50 });
    for (const worker of workers) worker.kill("SIGKILL");
    await aged(21);
    must(await askReplan(manager, season()));
    expect((await owner.query("SELECT state FROM replan WHERE workshop_id = $1 ORDER BY asked_at", [workshopId])).rows).toEqual([{ state: "lost" }, { state: "waiting" }]);
  }, 150_000);
});

function startWorker(): void {
  workers.push(spawn(process.execPath, ["--no-deprecation", "--import", "tsx", "lib/cli/work.ts", "replan"], { env: { ...process.env, NODE_ENV: "test", DATABASE_URL: database.ownerUrl, APP_DATABASE_URL: database.appUrl }, stdio: "ignore" }));
}
