import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { NO_WISHES, type ClashGround, type MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { reallyDifferent, settleFor } from "@/lib/domain/settling/clash/settle-clash";
import { percentAbove, type Settlement } from "@/lib/domain/settling/clash/settlement";
import { AIMS, DEFAULT_WEIGHTS, weightsFor, type Aim } from "@/lib/domain/settling/clash/weights";
import { iterationBudget } from "@/lib/domain/settling/effort";
import { verifyDays } from "@/lib/domain/settling/verify";
import { clashGround, run, sayDay, settled, smallClash } from "@/tests/helpers/clash";
import { leastDayCost } from "@/tests/helpers/settling";

const WEST = { kilnId: "west", name: "West kiln", powerKw: 9 };
const problemOf = (ground: ClashGround, aim: Aim) => clashProblem(ground, NO_WISHES, weightsFor(aim, DEFAULT_WEIGHTS));
const best = (ground: ClashGround, aim: Aim = "least-late", iterations = 2000) => settleFor(ground, NO_WISHES, DEFAULT_WEIGHTS, aim, 1, iterationBudget(iterations), sayDay);
const value = (ground: ClashGround, options = {}): readonly Settlement[] => {
  const found = settled(ground, options);
  if (!found.ok) throw new Error(found.problems[0].message);
  return found.value;
};
const sentences = (ground: ClashGround, options = {}): string[] => {
  const found = settled(ground, options);
  return found.ok ? [] : found.problems.map(({ message }) => message);
};

/** One kiln, held late in the nearest two weeks and just after them, and an ask that wants it at once. */
function threeWays(): ClashGround {
  const only = { west: 7 };
  const far = clashGround([]).handsOn;
  const long = (days: readonly number[]): number[] => [...days, ...days];
  return clashGround(
    [
      run("bowl", { memberName: "Jonas", standing: { kilnId: "west", day: 2 }, daysByKiln: only, neededBy: 24 }),
      run("seal", { memberName: "Mette", standing: { kilnId: "west", day: 9 }, daysByKiln: only, neededBy: 40, firmness: "promised" }),
      run("head", { memberName: "Tomasz", standing: { kilnId: "west", day: 16 }, daysByKiln: only, neededBy: 36 }),
      run("torso", { daysByKiln: only, neededBy: 9, importance: 2 }),
    ],
    { kilns: [WEST], handsOn: long(far), liftsOn: long(far), steamersOn: long(far) },
  );
}

describe("three ways out of one clash", () => {
  it("gives really different ones: late least, moving fewest, leaving the nearest weeks alone", () => {
    const found = value(threeWays());
    const of = (aim: Aim) => found.find((one) => one.aim === aim)?.figures;
    expect(found.length).toBeGreaterThan(1);
    expect(of("least-late")?.daysLate).toBe(0);
    expect(of("fewest-moved")?.moved).toBe(0);
    expect(of("fewest-moved")?.daysLate).toBeGreaterThan(0);
    expect(new Set(found.map(({ placements }) => JSON.stringify(placements))).size).toBe(found.length);
  });

  it("states who moves from where to where, by how many days, and whether the date is kept", () => {
    const [way] = value(clashGround([run("bowl", { standing: { kilnId: "west", day: 1 }, daysByKiln: { west: 5 }, neededBy: 8 })], { taken: [{ kilnId: "west", from: 0, to: 4, holder: "an outage" }] }));
    expect(way?.moves).toEqual([
      { runId: "bowl", title: "Ida's bowl", memberName: "Ida", from: { kilnId: "west", day: 1 }, to: { kilnId: "west", day: 4 }, until: 9, steamDay: null, days: 3, neededBy: 8, daysLate: 1 },
    ]);
    expect(way?.figures).toEqual({ moved: 1, peopleMoved: 1, asksPlaced: 0, late: 1, daysLate: 1, weightedDaysLate: 1, otherKilns: 0, daysMoved: 3, nearChanges: 1 });
    expect(way?.atMostPercent).toBe(0);
  });

  it("has one way, without a move, when nothing clashes, and when nothing is there", () => {
    expect(value(clashGround([run("bowl", { standing: { kilnId: "west", day: 1 } })])).map(({ moves }) => moves)).toEqual([[]]);
    expect(value(clashGround([])).map(({ moves }) => moves)).toEqual([[]]);
  });

  it("leaves out what is worse in some figure and better in none, and repetitions", () => {
    const [one] = value(threeWays()) as [Settlement];
    const worse = { ...one, figures: { ...one.figures, moved: one.figures.moved + 1 } };
    const other = { ...worse, figures: { ...worse.figures, weightedDaysLate: one.figures.weightedDaysLate - 1 } };
    expect(reallyDifferent([worse, one, one])).toEqual([one]);
    expect(reallyDifferent([one, other])).toEqual([one, other]);
  });

  it.each([
    [100, 100, 0],
    [100, 99.99, 0.1],
    [110, 100, 10],
    [5, 0, null],
    [0, 0, 0],
  ])("says of cost %d and bound %d that it is at most %s per cent above", (cost, bound, percent) => expect(percentAbove(cost, bound)).toBe(percent));

  it("gives the same plans for the same seed and iterations", () => expect(value(threeWays(), { seed: 7 })).toEqual(value(threeWays(), { seed: 7 })));
});

describe("what the manager holds or forbids", () => {
  const two = clashGround([run("bowl", { standing: { kilnId: "west", day: 1 } }), run("seal")], { taken: [{ kilnId: "east", from: 7, to: 11, holder: "new elements" }] });

  it("is kept by every way", () => {
    const pins = [{ runId: "seal", kilnId: "west", day: 2 }];
    for (const { placements } of value(two, { wishes: { pins, forbids: [] } })) expect(placements.find(({ job }) => job === 1)).toMatchObject({ kiln: 0, start: 2 });
    const forbids = [{ runId: "seal", kilnId: "east" }, { runId: "seal", from: 0, to: 8 }];
    for (const { placements } of value(two, { wishes: { pins: [], forbids } })) {
      const seal = placements.find(({ job }) => job === 1);
      expect(seal?.kiln).toBe(0);
      expect(seal?.start).toBeGreaterThanOrEqual(8);
    }
  });

  it("holds a run where it stands when neither kiln nor day is named", () => {
    const ground = clashGround([run("bowl", { standing: { kilnId: "west", day: 1 }, daysByKiln: { west: 5 }, importance: 1 }), run("seal", { daysByKiln: { west: 5 }, importance: 9, neededBy: 6 })]);
    for (const { placements } of value(ground, { wishes: { pins: [{ runId: "bowl" }], forbids: [] } })) expect(placements[0]).toMatchObject({ kiln: 0, start: 1 });
  });

  it.each([
    ["two places", [{ runId: "seal", kilnId: "west" }, { runId: "seal", kilnId: "east" }], [], "Ida's seal is held in two places at once: on West kiln, and on East kiln."],
    ["two runs on one kiln", [{ runId: "bowl" }, { runId: "seal", kilnId: "west", day: 3 }], [], "Ida's bowl from day 1 and Ida's seal from day 3 are both held on West kiln."],
    ["held and forbidden", [{ runId: "seal", kilnId: "west" }], [{ runId: "seal", kilnId: "west" }], "Ida's seal is held on West kiln and forbidden there."],
    ["a weekend", [{ runId: "seal", day: 5 }], [], "Ida's seal cannot be held on day 5: it takes 1 to load and 0 are on duty."],
    ["too early", [{ runId: "seal", day: 0 }], [], "Ida's seal cannot be held on day 0: it can be loaded from day 1 on."],
    ["a kiln taken", [{ runId: "seal", kilnId: "east", day: 4 }], [], "Ida's seal cannot be held on day 4 on East kiln: new elements has it from day 7 until day 11."],
    ["no such kiln", [{ runId: "seal", kilnId: "north" }], [], "Ida's seal cannot be held on north: there is no such kiln."],
    ["no such run", [{ runId: "vase" }], [], "There is no run vase that may be placed or moved."],
  ])("is refused in one sentence: %s", (_what, pins, forbids, sentence) => expect(sentences(two, { wishes: { pins, forbids } })).toEqual([sentence]));

  it("is refused for a kiln that cannot take it, and for a mould that cannot wait", () => {
    const ground = clashGround([run("seal", { daysByKiln: { west: 5 }, latest: 4 })]);
    expect(sentences(ground, { wishes: { pins: [{ runId: "seal", kilnId: "east" }], forbids: [] } })).toEqual(["Ida's seal cannot be held on East kiln: it does not fit."]);
    expect(sentences(ground, { wishes: { pins: [{ runId: "seal", day: 7 }], forbids: [] } })).toEqual(["Ida's seal cannot be held on day 7: its mould waits until day 4 and no longer."]);
  });
});

describe("a clash without a way out", () => {
  it.each<[string, Partial<MovableRun>, Partial<ClashGround>, string]>([
    ["an ask that no kiln takes", { daysByKiln: {} }, {}, "Ida's seal: no kiln can take it."],
    ["a length of 0", { daysByKiln: { west: 0, east: 0 } }, {}, "Ida's seal: it is said to take 0 days in West kiln; a kiln is held for 1 day or more."],
    ["a length that is no number", { daysByKiln: { west: NaN } }, {}, "Ida's seal: it is said to take no number of days in West kiln; a kiln is held for 1 day or more."],
    ["a length beyond the calendar", { daysByKiln: { west: 40, east: 27 } }, {}, "Ida's seal: it takes 27 days in East kiln from day 1 on, and the calendar ends on day 27."],
    ["nobody on duty", {}, { handsOn: new Array<number>(28).fill(0) }, "Nobody is there to load or unload Ida's seal on any day from day 0 until day 27."],
    ["more hands than there are", { hands: 3 }, {}, "Ida's seal: it takes 3 people to load, and at most 2 are on duty on any day until day 27."],
    ["no steamer", { steams: true }, { steamersOn: new Array<number>(28).fill(0) }, "No steamer is free for Ida's seal on any day from day 0 until day 27."],
    ["a kiln taken throughout", { daysByKiln: { west: 5 } }, { taken: [{ kilnId: "west", from: 0, to: 28, holder: "new elements" }] }, "Ida's seal: West kiln, the only kiln that takes it, is not free for 5 days at a stretch from day 1 on."],
  ])("says so: %s", (_what, changes, ground, sentence) => expect(sentences(clashGround([run("seal", changes)], ground))).toEqual([sentence]));

  it("places a run whose last day is the last of the calendar, and not one a day longer", () => {
    const last = (days: number) => settled(clashGround([run("seal", { daysByKiln: { west: days }, earliest: 1 })]));
    expect(last(24).ok).toBe(true);
    expect(last(25).ok).toBe(false);
  });
});

describe("small clashes, beside every possible plan", () => {
  it("are settled at the least cost there is for every aim, stand, and never move what has started", () => {
    fc.assert(
      fc.property(smallClash, fc.constantFrom(...AIMS), (ground, aim) => {
        const problem = problemOf(ground, aim);
        const least = leastDayCost(problem);
        const found = best(ground, aim);
        if (!found.ok) return expect(least).toBe(Infinity);
        const { placements, cost, bound } = found.value;
        expect(verifyDays(problem, placements, cost)).toEqual([]);
        expect(cost).toBeCloseTo(least, 6);
        expect(bound).toBeLessThanOrEqual(least + 1e-9);
        const [started] = ground.taken;
        for (const { kiln, start, end } of placements) expect(kiln === 0 && start < (started?.to ?? 0) && (started?.from ?? 0) < end).toBe(false);
      }),
      { numRuns: 40 },
    );
  }, 60_000);

  it("never cost more without one of the asks, nor with a later date", () => {
    fc.assert(
      fc.property(smallClash, fc.nat(), (ground, pick) => {
        const i = pick % ground.runs.length;
        const found = best(ground);
        if (!found.ok) return;
        const without = best({ ...ground, runs: ground.runs.filter((_, j) => i !== j) });
        const looser = best({ ...ground, runs: ground.runs.map((one, j) => (i === j && one.neededBy !== null ? { ...one, neededBy: one.neededBy + 3 } : one)) });
        for (const other of [without, looser]) expect(other.ok && other.value.cost).toBeLessThanOrEqual(found.value.cost + 1e-9);
      }),
      { numRuns: 40 },
    );
  }, 60_000);
});
