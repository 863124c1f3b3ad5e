import { describe, expect, it } from "vitest";
import { byIterations, clockBudget, iterationBudget } from "@/lib/domain/settling/effort";
import { settleDays } from "@/lib/domain/settling/days/settle-days";
import { climb, type Lagrangian } from "@/lib/domain/settling/subgradient";
import { verifyDays } from "@/lib/domain/settling/verify";
import { weekdaysProblem } from "@/tests/helpers/settling";

describe("a budget in seconds", () => {
  it("sees at the next step that one step has taken all of it", () => {
    let now = 100;
    const budget = clockBudget(10, () => now);
    const effort = budget.part(0.5);
    expect(effort.spent(0)).toBe(0);
    now += 4;
    expect(effort.spent(1)).toBeCloseTo(0.8);
    now += 1;
    expect(effort.spent(2)).toBeGreaterThanOrEqual(1);
    expect(budget.isSpent()).toBe(false);
    now += 5;
    expect(budget.isSpent()).toBe(true);
  });

  it("gives no part beyond the whole", () => {
    let now = 0;
    const budget = clockBudget(10, () => now);
    now = 9;
    const effort = budget.part(0.5);
    now = 10;
    expect(effort.spent(1)).toBeGreaterThanOrEqual(1);
  });

  it("ends when it is stopped, whatever it counts", () => {
    let stopped = false;
    const efforts = [clockBudget(10, () => 0, () => stopped).part(1), iterationBudget(1_000, () => stopped).part(1)];
    expect(efforts.map((effort) => effort.spent(1) < 1)).toEqual([true, true]);
    stopped = true;
    expect(efforts.map((effort) => effort.spent(2) < 1)).toEqual([false, false]);
  });

  it("that is over from the start still gives a whole plan that stands", () => {
    const problem = weekdaysProblem(Array.from({ length: 10 }, (_, i) => ({ due: 6 + i })), { horizon: 120 });
    let asked = 0;
    const { placements, cost, leftOut } = settleDays(problem, 1, clockBudget(1e-9, () => asked++), { onBetter: () => undefined, onBound: () => undefined, bound: () => 0 });
    expect(leftOut).toBe(0);
    expect(verifyDays(problem, placements, cost)).toEqual([]);
  });
});

/** One thing that three want and one can have: each pays the price, or does without for 1, 2 and 4. The best bound is 3. */
const three: Lagrangian = {
  size: 1,
  work: 3,
  evaluate: ([price = 0], slope) => {
    const wanting = [1, 2, 4].filter((without) => price < without);
    slope[0] = wanting.length - 1;
    return [1, 2, 4].reduce((sum, without) => sum + Math.min(price, without), 0) - price;
  },
};

describe("a bound that climbs", () => {
  it.each([3, 4, 30, 300])("comes near the best one when the best plan known costs %d", (cost) => {
    const { bound } = climb(three, new Float64Array(1), () => cost, byIterations(400));
    expect(bound).toBeGreaterThan(2.9);
    expect(bound).toBeLessThanOrEqual(3 + 1e-9);
  });
});
