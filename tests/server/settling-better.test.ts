import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { iterationBudget } from "@/lib/domain/settling/effort";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayTables, firstAtOrAfter, type DayTables } from "@/lib/domain/settling/days/day-tables";
import type { DaySettlement } from "@/lib/domain/settling/days/search-days";
import { runsAround, setFree } from "@/lib/domain/settling/days/set-free";
import { climbDays, settleDays } from "@/lib/domain/settling/days/settle-days";
import { seededRandom } from "@/lib/domain/settling/random";
import { verifyDays } from "@/lib/domain/settling/verify";
import { DayImprover } from "@/lib/server/settling/improve-days";
import { SharedFigures } from "@/lib/server/settling/shared-figures";
import { loadSolver, type Solve } from "@/lib/server/settling/solver";
import { leastDayCost, smallDays, weekdaysProblem } from "@/tests/helpers/settling";

let solve: Solve;
beforeAll(async () => {
  solve = await loadSolver();
});

const settled = (problem: DayProblem, iterations: number): DaySettlement => settleDays(problem, 1, iterationBudget(iterations), { onBetter: () => undefined, onBound: () => undefined, bound: () => 0 });
const startsOf = ({ jobs, classes, span, rowOf, end }: DayTables): number[] =>
  Array.from({ length: jobs }, (_, job) => Array.from({ length: classes }, (_, cls) => rowOf[job * classes + cls] ?? -1).filter((row) => row >= 0).reduce((sum, row) => sum + end.subarray(row, row + span).filter((e) => e >= 0).length, 0));

describe("settling a part of a plan anew", () => {
  it("finds the least cost when all runs are free, from whatever plan, and only plans that stand", () => {
    fc.assert(
      fc.property(smallDays, (problem) => {
        const least = leastDayCost(problem);
        let plan = settled(problem, 1);
        if (plan.leftOut > 0) return;
        const tables = dayTables(problem);
        const { prices } = climbDays(tables, plan, iterationBudget(1), 1, { onBound: () => undefined });
        new DayImprover(problem, tables, prices, solve).step(plan, () => 0, () => false, (better) => (plan = better));
        expect(plan.cost).toBeCloseTo(least, 6);
        expect(verifyDays(problem, plan.placements, plan.cost)).toEqual([]);
      }),
      { numRuns: 60, endOnFailure: true },
    );
  }, 60_000);

  it("is stuck after enough parts that cannot be bettered", () => {
    const problem = weekdaysProblem([{ due: 40 }]);
    const tables = dayTables(problem);
    const improver = new DayImprover(problem, tables, new Float64Array((tables.classes + 1) * tables.span), solve);
    const plan = settled(problem, 1);
    for (let part = 0; part < 25; part++) {
      expect(improver.isStuck).toBe(false);
      improver.step(plan, () => 0, () => false, () => expect.unreachable());
    }
    expect(improver.isStuck).toBe(true);
  });
});

describe("the tables of a part", () => {
  const problem = weekdaysProblem(Array.from({ length: 5 }, (_, i) => ({ due: 8 + 2 * i })), { horizon: 60 });
  const tables = dayTables(problem);
  const { placements } = settled(problem, 50);

  it("leave a run that is not free its own start alone, and a free one all of them", () => {
    const [all, some] = [startsOf(tables), startsOf(setFree(tables, placements, new Set([1, 3])))];
    expect(some).toEqual(all.map((starts, job) => (job === 1 || job === 3 ? starts : 1)));
  });

  it("set a run free whose start they no longer have", () => {
    const [{ kiln, start } = { kiln: -1, start: -1 }] = placements;
    const end = Int16Array.from(tables.end);
    end[(tables.rowOf[tables.classOf[kiln] ?? -1] ?? NaN) + firstAtOrAfter(tables.dayOf, start)] = -1;
    const cut = { ...tables, end };
    expect(startsOf(setFree(cut, placements, new Set()))).toEqual([(startsOf(tables)[0] ?? NaN) - 1, 1, 1, 1, 1]);
  });

  it("are of as many runs as are asked for, at most all", () => {
    for (const [count, expected] of [[1, 1], [3, 3], [9, 5]] as const) expect(runsAround(tables, placements, () => 0, count, seededRandom(count)).size).toBe(expected);
    expect(runsAround(tables, [], () => 0, 3, seededRandom(1)).size).toBe(0);
  });
});

describe("a plan that threads share", () => {
  const placement = (job: number, start: number) => ({ job, kiln: 1, start, end: start + 4, steam: -1 });

  it("is the best whole one that was offered", () => {
    const shared = SharedFigures.create(2);
    const other = new SharedFigures(shared.buffer);
    expect(other.bestPlan()).toBeUndefined();
    shared.offerPlan({ cost: 5, placements: [placement(1, 3), placement(0, 8)] });
    other.offerPlan({ cost: 6, placements: [placement(0, 1), placement(1, 9)] });
    other.offerPlan({ cost: 1, placements: [placement(0, 1)] });
    expect(other.bestPlan()).toEqual({ cost: 5, placements: [placement(0, 8), placement(1, 3)] });
  });

  it("is none where there is no room for it", () => {
    const shared = SharedFigures.create();
    shared.offerPlan({ cost: 5, placements: [placement(0, 1)] });
    expect(shared.bestPlan()).toBeUndefined();
  });
});
