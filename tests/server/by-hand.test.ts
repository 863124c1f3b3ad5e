import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { afterAll, describe, expect, it } from "vitest";
import type { ByHand } from "@/lib/contracts/by-hand";
import type { AskedPlace } from "@/lib/contracts/ways-out";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/tests/helpers/checked-accept");
const { askReplan } = await import("@/lib/server/commands/ask-replan");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { seasonScreen } = await import("@/lib/server/queries/season");
const { computeReplan } = await import("@/lib/server/replan/compute-replan");
const { byHand } = await import("@/lib/server/ways-out/by-hand");
const { askedWays, brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { codeOf, must } = await import("@/tests/helpers/booking");

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

/** The first Wednesday so many weeks ahead: staffed, and free. */
const wednesday = (today: string, weeks: number): string => {
  const day = Temporal.PlainDate.from(today).add({ weeks });
  return day.add({ days: (10 - day.dayOfWeek) % 7 }).toString();
};

async function edited() {
  const made = await brokenKiln(database.ownerUrl);
  const found = await askedWays(made.manager);
  const way = found.ways.find(({ figures }) => figures.moved === 2) ?? found.ways[0];
  if (way === undefined) throw new Error("no way");
  const first = Temporal.PlainDate.from(found.today);
  const moves = way.moves.map(({ runId, to }): AskedPlace => ({ runId, kilnId: to.kilnId, day: first.add({ days: to.day }).toString() }));
  const base: ByHand["base"] = { way: { aim: way.aim, cost: way.cost, moves } };
  return { ...made, found, way, base, far: { runId: made.first.firingId, kilnId: made.southKiln.equipmentId, day: wednesday(found.today, 9) } };
}

/** Made once for what changes nothing. */
const once = edited();

describe("a settlement edited by hand", () => {
  it("costs what it did while nothing is put elsewhere", async () => {
    const { manager, way, base } = await once;
    const { before, after } = must(await byHand(manager, { base, puts: [] }));
    expect([before.cost, must(after).settlement.cost]).toEqual([way.cost, way.cost]);
    expect(must(after).times).toEqual(way.times);
  }, 120_000);

  it("says in a sentence why it cannot stand", async () => {
    const { manager, base, far, first, second, northKiln, found } = await once;
    const said = async (...puts: AskedPlace[]): Promise<string> => {
      const { after } = must(await byHand(manager, { base, puts }));
      return after.ok ? "stands" : after.problems[0].message;
    };
    const sunday = Temporal.PlainDate.from(far.day).add({ days: 4 }).toString();
    expect(await said({ ...far, day: sunday })).toMatch(/^First cannot be held on Sun .*: it takes \d to load and 0 are on duty\.$/);
    expect(await said({ ...far, kilnId: northKiln.equipmentId, day: wednesday(found.today, 1) })).toMatch(/^First cannot be held on .* on North kiln: a burnt element has it from/);
    expect(await said(far, { ...far, runId: second.firingId })).toMatch(/^(First|Second) would have South kiln from .*; (First|Second) has it from/);
    expect(await said({ ...far, runId: first.firingId })).toBe("stands");
  });

  it("says what an edit costs, and is accepted as it was put", async () => {
    const { manager, member, base, far, first, way } = await once;
    const { before, after, fingerprint } = must(await byHand(manager, { base, puts: [far] }));
    const { settlement, times } = must(after);
    expect(settlement.cost).toBeGreaterThan(before.cost);
    expect(before.cost).toBe(way.cost);
    const moves = times.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }));
    must(await acceptSettlement(manager, { kind: "by-hand", fingerprint, reason: SETTLED_REASON, requestKey: randomUUID(), moves }));
    const kiln = (await firingScreen(member, first.firingId))?.kiln;
    expect([kiln?.id, kiln?.from.slice(0, 10)]).toEqual([far.kilnId, far.day]);
  });

  it("is refused when the calendar has changed, and for what is not there", async () => {
    const { manager, otherMember, second, base, far } = await edited();
    expect(codeOf(await byHand(manager, { base, puts: [{ ...far, runId: randomUUID() }] }))).toBe("not-found");
    const stranger = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await byHand(stranger.manager, { base, puts: [far] }))).toBe("changed-meanwhile");
    must(await cancelRun(otherMember, { firingId: second.firingId }));
    expect(codeOf(await byHand(manager, { base, puts: [far] }))).toBe("changed-meanwhile");
  });

  it("may be the plan of a season, which it then takes the place of", async () => {
    const { manager, workshopId, far, found } = await edited();
    const today = Temporal.PlainDate.from(found.today);
    const { replanId } = must(await askReplan(manager, { from: today.toString(), to: today.add({ months: 5 }).toString(), seconds: 20 }));
    expect(codeOf(await byHand(manager, { base: { replanId }, puts: [] }))).toBe("not-found");
    await computeReplan({ workshopId, replanId });
    const { before, after, fingerprint } = must(await byHand(manager, { base: { replanId }, puts: [far] }));
    expect(before.cost).toBe((await seasonScreen(manager, undefined))?.plan?.cost);
    const moves = must(after).times.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }));
    const { settlementId } = must(await acceptSettlement(manager, { kind: "by-hand", replanId, fingerprint, reason: SETTLED_REASON, requestKey: randomUUID(), moves }));
    expect((await seasonScreen(manager, undefined))?.settlementId).toBe(settlementId);
  });
});
