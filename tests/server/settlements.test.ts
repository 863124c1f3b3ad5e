import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { answerSettlement } = await import("@/lib/server/commands/answer-settlement");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { readHome } = await import("@/lib/server/queries/home");
const { runStates } = await import("@/lib/server/queries/run-states");
const { settlementScreen } = await import("@/lib/server/queries/settlement");
const { accepting, askedWays, brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { codeOf, must } = await import("@/tests/helpers/booking");
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

/** A way out that moves both runs, accepted. */
async function settledKiln() {
  const made = await brokenKiln(database.ownerUrl);
  const found = await askedWays(made.manager);
  const way = found.ways.find(({ figures }) => figures.moved > 0);
  const { settlementId } = must(await acceptSettlement(made.manager, accepting(found, way)));
  const mover = way?.times.some(({ runId }) => runId === made.first.firingId) === true ? { who: made.member, run: made.first } : { who: made.otherMember, run: made.second };
  return { ...made, way, settlementId, mover };
}

describe("a settlement that was accepted", () => {
  it("is kept with what moved from where to where, and whom it was told to", async () => {
    const { manager, way, settlementId, workshopId, assistant, northKiln } = await settledKiln();
    const screen = await settlementScreen(manager, settlementId);
    expect(screen?.moves.map(({ firingId, kilnFrom }) => [firingId, kilnFrom])).toEqual(way?.times.map(({ runId, kilnFrom }) => [runId, kilnFrom]));
    expect(screen?.moves.every(({ fromKiln }) => fromKiln === northKiln.name)).toBe(true);
    expect(screen?.told).toHaveLength(way?.figures.peopleMoved ?? -1);
    expect(screen?.told.every(({ agrees, answeredAtMs }) => agrees === null && answeredAtMs === null)).toBe(true);
    const hrefs = await owner.query("SELECT DISTINCT href FROM notice WHERE workshop_id = $1 AND text LIKE $2", [workshopId, `%${SETTLED_REASON}`]);
    expect(hrefs.rows).toEqual([{ href: `/settlements/${settlementId}` }]);
    expect(await settlementScreen(assistant, settlementId)).toBeNull();
    await expect(owner.query("DELETE FROM settlement WHERE workshop_id = $1", [workshopId])).rejects.toMatchObject({ code: "LB003" });
  });

  it("says of a run that it no longer moves what became of it", async () => {
    const { manager, mover } = await settledKiln();
    must(await cancelRun(mover.who, { firingId: mover.run.firingId }));
    expect((await runStates(manager, [mover.run.firingId])).get(mover.run.firingId)?.state).toBe("its run was cancelled");
    expect((await runStates(manager, [])).size).toBe(0);
  });
});

describe("an answer to a settlement", () => {
  it("waits on home for whose run moved, is kept once, may change, and moves nothing", async () => {
    const { manager, settlementId, mover, workshopId } = await settledKiln();
    const bookings = async () => (await owner.query("SELECT booking_id, starts_at FROM booking WHERE workshop_id = $1 AND standing ORDER BY 1", [workshopId])).rows;
    const before = await bookings();
    expect((await readHome(mover.who, undefined)).answersWanted.map((one) => one.settlementId)).toEqual([settlementId]);
    must(await answerSettlement(mover.who, { settlementId, agrees: false, words: "I cannot unload on that day." }));
    expect((await readHome(mover.who, undefined)).answersWanted).toEqual([]);
    const home = await readHome(manager, undefined);
    expect(home.objections).toMatchObject([{ settlementId, by: mover.who.name, words: "I cannot unload on that day." }]);
    expect(home.unread.map(({ text }) => text).join()).toContain(`${mover.who.name} objects to the settlement`);
    expect((await settlementScreen(manager, settlementId))?.told.find(({ name }) => name === mover.who.name)).toMatchObject({ agrees: false, words: "I cannot unload on that day." });

    must(await answerSettlement(mover.who, { settlementId, agrees: true, words: "" }));
    expect((await readHome(manager, undefined)).objections).toEqual([]);
    expect((await owner.query("SELECT count(*)::int AS n FROM settlement_told WHERE workshop_id = $1 AND answered_at IS NOT NULL", [workshopId])).rows).toEqual([{ n: 1 }]);
    const record = await owner.query("SELECT before, after FROM audit WHERE workshop_id = $1 AND action = 'answer-settlement' ORDER BY audit_id", [workshopId]);
    expect(record.rows).toEqual([{ before: null, after: { agrees: false, words: "I cannot unload on that day." } }, { before: { agrees: false, words: "I cannot unload on that day." }, after: { agrees: true, words: "" } }]);
    expect(await bookings()).toEqual(before);
  });

  it("needs words to object, and is nobody's whose run did not move", async () => {
    const { manager, assistant, settlementId, mover } = await settledKiln();
    expect(codeOf(await answerSettlement(mover.who, { settlementId, agrees: false, words: "no" }))).toBe("not-allowed");
    for (const who of [manager, assistant]) expect(codeOf(await answerSettlement(who, { settlementId, agrees: true, words: "" }))).toBe("not-found");
  });

  it("is no longer wanted, and objected to, once the run does not stand where it was put", async () => {
    const { manager, settlementId, mover } = await settledKiln();
    must(await answerSettlement(mover.who, { settlementId, agrees: false, words: "I cannot unload on that day." }));
    expect((await readHome(manager, undefined)).objections).toHaveLength(1);
    must(await cancelRun(mover.who, { firingId: mover.run.firingId }));
    expect((await readHome(manager, undefined)).objections).toEqual([]);
  });
});
