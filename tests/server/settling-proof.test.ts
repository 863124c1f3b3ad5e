import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { dayModel, planOfSolution } from "@/lib/domain/settling/days/day-model";
import { dayTables } from "@/lib/domain/settling/days/day-tables";
import { dealOut } from "@/lib/domain/settling/days/deal-out";
import { settlementOf } from "@/lib/domain/settling/days/search-days";
import { verifyDays } from "@/lib/domain/settling/verify";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { proveDays } from "@/lib/server/settling/prove-days";
import type { SettledPlan } from "@/lib/server/settling/settle-task";
import { SharedFigures } from "@/lib/server/settling/shared-figures";
import { loadSolver, type Solve } from "@/lib/server/settling/solver";
import { leastDayCost, smallDays, weekdaysProblem } from "@/tests/helpers/settling";

const MANY_CHOICES = 100_000;
let solve: Solve;
beforeAll(async () => {
  solve = await loadSolver();
});

/** What the solver makes of a problem: the cost of the plan it found, and its bound. */
function solved(problem: DayProblem) {
  const tables = dayTables(problem);
  if (problem.jobs.length === 0) return { status: "solved", cost: 0, bound: 0 };
  const model = dayModel(tables, MANY_CHOICES);
  if (model === undefined) throw new Error("The model is too large.");
  let cost = Infinity;
  let bound = 0;
  const status = solve(model, 20, {
    onBound: (found) => (bound = Math.max(bound, found)),
    onSolution: (values) => {
      const plan = planOfSolution(tables, model, values);
      expect(plan).toBeDefined();
      if (plan === undefined) return;
      const settlement = settlementOf(dealOut(plan));
      expect(verifyDays(problem, settlement.placements, settlement.cost)).toEqual([]);
      cost = Math.min(cost, settlement.cost);
    },
    isOver: () => false,
  });
  return { status, cost, bound };
}

async function proven(problem: DayProblem, known: number, few?: number) {
  const shared = SharedFigures.create();
  const plans: SettledPlan[] = [];
  shared.offerCost(known);
  await proveDays({ problem }, performance.timeOrigin + performance.now() + 20_000, shared, (plan) => plans.push(plan), few === undefined ? {} : { isBesideSearch: false, few });
  return { bound: shared.bound, plans };
}

describe("the exact model of a settlement in days", () => {
  it("has the least cost there is as its optimum, steamers and power counted, and only plans as solutions", () => {
    fc.assert(
      fc.property(smallDays, (problem) => {
        const least = leastDayCost(problem);
        const { status, cost, bound } = solved(problem);
        if (least === Infinity) return expect(status).toBe("infeasible");
        expect(status).toBe("solved");
        expect(cost).toBeCloseTo(least, 6);
        expect(bound).toBeLessThanOrEqual(least + 1e-6);
      }),
      { numRuns: 60, endOnFailure: true },
    );
  }, 120_000);

  it("is never dearer without one of the runs, nor with a later date", () => {
    fc.assert(
      fc.property(smallDays, fc.nat(), fc.integer({ min: 1, max: 5 }), (problem, pick, later) => {
        const job = pick % problem.jobs.length;
        const { status, cost } = solved(problem);
        if (status === "infeasible") return;
        expect(solved({ ...problem, jobs: problem.jobs.filter((_, i) => i !== job) }).cost).toBeLessThanOrEqual(cost + 1e-6);
        expect(solved({ ...problem, jobs: problem.jobs.map((one, i) => (i === job ? { ...one, due: one.due + later } : one)) }).cost).toBeLessThanOrEqual(cost + 1e-6);
      }),
      { numRuns: 30, endOnFailure: true },
    );
  }, 120_000);

  it("lets no two runs be loaded whose steamer days cannot both be had", () => {
    const alike = { steams: true, due: 4, weight: 5, daysByClass: [3, 3] };
    const tight = weekdaysProblem([alike, alike, alike], { steamWindow: 1, kilns: ["kiln 0", "kiln 1", "kiln 2"], classOf: [0, 0, 0], powerKw: [9, 9, 9] });
    const { cost } = solved(tight);
    expect(cost).toBe(leastDayCost(tight));
    expect(cost).toBeGreaterThan(solved({ ...tight, steamsOn: tight.steamsOn.map((places) => 3 * places) }).cost);
  });

  it("keeps within the power that is left on a day", () => {
    const alike = { steams: false, due: 4, weight: 5, heatingDays: 2, daysByClass: [3, 3] };
    const tight = weekdaysProblem([alike, alike], { powerLeftKw: Array.from({ length: 28 }, () => 12) });
    const { cost } = solved(tight);
    expect(cost).toBe(leastDayCost(tight));
    expect(cost).toBeGreaterThan(solved({ ...tight, powerLeftKw: null }).cost);
  });
});

describe("a proof beside a search", () => {
  it("ends with the least cost as bound, whatever plan was known, and finds the plan that has it", async () => {
    await fc.assert(
      fc.asyncProperty(smallDays, fc.constantFrom(0, 3, 40, 300), fc.constantFrom(undefined, 1, 20), async (problem, above, few) => {
        const least = leastDayCost(problem);
        fc.pre(least < Infinity);
        const { bound, plans } = await proven(problem, least + above, few);
        // As near as costs count as the same.
        expect(bound).toBeGreaterThanOrEqual(least - 2e-6);
        expect(bound).toBeLessThanOrEqual(least + 1e-6);
        if (above > 0 && bound > 0) expect(Math.min(...plans.map(({ cost }) => cost))).toBeCloseTo(least, 6);
      }),
      { numRuns: 40, endOnFailure: true },
    );
  }, 120_000);
});
