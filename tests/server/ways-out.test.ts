import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { NOTHING_ASKED, readAskedWays, waysOutHref, type AskedWays } from "@/lib/contracts/ways-out";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { clashGround, waysOut } = await import("@/lib/server/ways-out/ways-out");
const { accepting, askedWays, brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { bookedRun, codeOf, describedCasting, must } = await import("@/tests/helpers/booking");

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

const standing = async (workshopId: string): Promise<unknown> => (await owner.query("SELECT firing_id, equipment_id, purpose, starts_at, ends_at FROM booking WHERE workshop_id = $1 AND standing ORDER BY 1, 3, 4", [workshopId])).rows;

const broken = () => brokenKiln(database.ownerUrl);

describe("ways out of a clash", () => {
  it("are complete, tried out to the quarter hour, and move nothing before one is accepted", async () => {
    const { manager, workshopId } = await broken();
    const before = await standing(workshopId);
    const found = await askedWays(manager);
    expect(found.ways.length).toBeGreaterThan(0);
    for (const { moves, times, atMostPercent } of found.ways) {
      expect(times.map(({ runId }) => runId).sort()).toEqual(moves.map(({ runId }) => runId).sort());
      expect(atMostPercent === null || atMostPercent >= 0).toBe(true);
    }
    expect(await standing(workshopId)).toEqual(before);
    expect((await owner.query("SELECT FROM notice WHERE workshop_id = $1 AND text LIKE '%Tried out%'", [workshopId])).rowCount).toBe(0);
  });

  it("is carried out whole, leaves no clash and a record, and tells everybody who is moved why", async () => {
    const { manager, workshopId, member, first } = await broken();
    const found = await askedWays(manager);
    const [way] = found.ways;
    const order = accepting(found, way);
    const accepted = must(await acceptSettlement(manager, order));
    const { moved } = accepted;
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    expect(moved).toEqual(way?.times);
    const mine = way?.times.find(({ runId }) => runId === first.firingId);
    const kiln = (await firingScreen(member, first.firingId))?.kiln;
    if (mine !== undefined) expect(Date.parse(kiln?.from ?? "")).toBe(Date.parse(mine.kilnFrom));
    const { rows } = await owner.query<{ text: string }>("SELECT text FROM notice WHERE workshop_id = $1 AND text LIKE $2", [workshopId, `%${SETTLED_REASON}`]);
    expect(rows).toHaveLength(way?.figures.moved ?? -1);
    const audits = await owner.query("SELECT reason FROM audit WHERE workshop_id = $1 AND action = 'accept-settlement'", [workshopId]);
    expect(audits.rowCount).toBe((way?.times.length ?? 0) + 1);
    expect(await acceptSettlement(manager, order)).toEqual({ ok: true, value: accepted });
    expect((await askedWays(manager)).ways.map(({ moves }) => moves)).toEqual([[]]);
  });

  it("is refused whole when anything has changed meanwhile", async () => {
    const { manager, workshopId, otherMember, second } = await broken();
    const found = await askedWays(manager);
    must(await cancelRun(otherMember, { firingId: second.firingId }));
    const before = await standing(workshopId);
    expect(codeOf(await acceptSettlement(manager, accepting(found, found.ways[0])))).toBe("changed-meanwhile");
    expect(await standing(workshopId)).toEqual(before);
  });

  it("is carried out once when two managers accept at the same time", async () => {
    const { manager } = await broken();
    const found = await askedWays(manager);
    const both = await Promise.all([1, 2].map(() => acceptSettlement(manager, accepting(found, found.ways[0]))));
    expect(both.map(codeOf).sort()).toEqual(["changed-meanwhile", "ok"]);
  });

  it("books what is asked for where it fits, and the ask is met", async () => {
    const { manager, member, otherMember, northKiln, workshopId } = await makeWorkshop(database.ownerUrl);
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "First");
    const fromDate = (await firingScreen(member, firingId))?.kiln.from.slice(0, 10) ?? "";
    const castingId = await describedCasting(otherMember, "Second");
    const { askId } = must(await createAsk(otherMember, { castingId, kilnId: northKiln.equipmentId, fromDate, importance: 3, note: "" }));
    const found = await askedWays(manager, { keep: [firingId] });
    expect(found.ways.map(({ figures }) => figures.moved)).toEqual([0]);
    must(await acceptSettlement(manager, accepting(found, found.ways[0])));
    expect((await owner.query("SELECT status FROM ask WHERE workshop_id = $1 AND ask_id = $2", [workshopId, askId])).rows).toEqual([{ status: "met" }]);
    expect(await clashesScreen(manager, undefined)).toEqual([]);
  });

  it("keeps what is held, and says in a sentence what cannot be", async () => {
    const { manager, first, northKiln } = await broken();
    const outcome = await waysOut(manager, { asked: { ...NOTHING_ASKED, keep: [first.firingId] }, iterations: 50 });
    expect(outcome.ok ? "" : outcome.problems[0].message).toMatch(new RegExp(`^First cannot be held on .* on ${northKiln.name}: a burnt element has it from`));
  });

  it("is another workshop's business to nobody", async () => {
    const { manager, member } = await broken();
    const stranger = await makeWorkshop(database.ownerUrl);
    const found = await askedWays(manager);
    expect(codeOf(await acceptSettlement(stranger.manager, accepting(found, found.ways[0])))).toBe("changed-meanwhile");
    expect(codeOf(await acceptSettlement(member, accepting(found, found.ways[0])))).toBe("not-allowed");
    expect((await clashGround(stranger.manager, undefined)).ground.runs).toEqual([]);
  });

  it("are asked for by an address, which leaves out what it cannot read", () => {
    const [runId, kilnId] = [randomUUID(), randomUUID()];
    const asked: AskedWays = { keep: [runId], hold: [{ runId, kilnId, day: "2027-03-22" }], not: [], thorough: true, tried: { aim: "quiet-weeks", cost: 12.4, moves: [{ runId, kilnId, day: "2027-03-29" }] }, was: ["least-late.2.0"] };
    const params = new URL(waysOutHref(asked), "https://saltmarsh.example").searchParams;
    const read = readAskedWays(Object.fromEntries([...params.keys()].map((key) => [key, params.getAll(key)])));
    expect(read).toEqual({ asked, unread: 0 });
    expect(readAskedWays({ keep: "x", hold: ["y_z_w"], thorough: "yes", tried: "cheapest_3" })).toEqual({ asked: { ...NOTHING_ASKED, thorough: true }, unread: 2 });
  });
});
