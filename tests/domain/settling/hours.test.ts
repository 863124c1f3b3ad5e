import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { iterationBudget } from "@/lib/domain/settling/effort";
import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { settleHours, type HourHooks } from "@/lib/domain/settling/hours/settle-hours";
import { verifyHours } from "@/lib/domain/settling/verify-hours";
import { leastHourCost, smallHours } from "@/tests/helpers/settling";

function settled(problem: HourProblem, iterations = 300, seed = 1) {
  let bound = 0;
  const told: number[] = [];
  const hooks: HourHooks = { onBetter: ({ cost }) => told.push(cost), onBound: (found) => (bound = found) };
  return { ...settleHours(problem, seed, iterationBudget(iterations), hooks), bound, told };
}

describe("settling in hours", () => {
  it("finds the least cost there is on small problems, every plan stands and no bound is above it", () => {
    fc.assert(
      fc.property(smallHours, (problem) => {
        const least = leastHourCost(problem);
        const { cost, placements, bound } = settled(problem);
        expect(verifyHours(problem, placements)).toEqual([]);
        expect(cost).toBe(least);
        expect(bound).toBeLessThanOrEqual(least);
      }),
      { numRuns: 60 },
    );
  });

  it("never costs more without one of the asks, nor with a later date", () => {
    fc.assert(
      fc.property(smallHours, fc.nat(), (problem, pick) => {
        const ask = pick % problem.asks.length;
        const { cost } = settled(problem);
        expect(settled({ ...problem, asks: problem.asks.filter((_, i) => i !== ask) }).cost).toBeLessThanOrEqual(cost);
        expect(settled({ ...problem, asks: problem.asks.map((one, i) => (i === ask ? { ...one, dueH: one.dueH + 3 } : one)) }).cost).toBeLessThanOrEqual(cost);
      }),
      { numRuns: 40 },
    );
  });

  it("gives the same plan for the same seed, and tells only better ones", () => {
    const problem = crowd(24, 3);
    const [one, again, other] = [settled(problem, 200), settled(problem, 200), settled(problem, 200, 2)];
    expect(again.placements).toEqual(one.placements);
    expect(other.placements).not.toEqual(one.placements);
    expect(one.told).toEqual([...one.told].sort((a, b) => b - a));
  });

  it("prices long times in coarser steps, and still never above a plan", () => {
    const problem = { ...crowd(40, 2), asks: crowd(40, 2).asks.map((ask) => ({ ...ask, hours: ask.hours.map((hours) => hours * 400), dueH: ask.dueH * 400 })) };
    const { cost, bound } = settled(problem, 20);
    expect(bound).toBeGreaterThan(cost / 2);
    expect(bound).toBeLessThanOrEqual(cost);
  });

  it("stops at once when nobody is late", () => {
    const { told } = settled({ ...crowd(6, 2), asks: crowd(6, 2).asks.map((ask) => ({ ...ask, dueH: 10_000 })) }, 1_000_000);
    expect(told).toEqual([0]);
  });
});

describe("one kiln that takes all", () => {
  it("is settled exactly on small problems", () => {
    const asks = fc.array(fc.record({ hours: fc.integer({ min: 1, max: 20 }), dueH: fc.integer({ min: -5, max: 60 }), weight: fc.integer({ min: 0, max: 9 }) }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(asks, fc.integer({ min: 0, max: 9 }), (all, releaseH) => {
        const problem = { kilns: ["a"], taken: [[]], asks: all.map(({ hours, ...ask }, i) => ({ id: `${i}`, releaseH, hours: [hours], ...ask })) };
        const { cost, bound, placements } = settled(problem, 40);
        expect(verifyHours(problem, placements)).toEqual([]);
        expect(cost).toBe(leastHourCost(problem));
        expect(bound).toBeLessThanOrEqual(cost);
      }),
      { numRuns: 60 },
    );
  });
});

function crowd(asks: number, kilns: number): HourProblem {
  return {
    kilns: Array.from({ length: kilns }, (_, kiln) => `kiln ${kiln}`),
    asks: Array.from({ length: asks }, (_, i) => ({ id: `ask ${i}`, releaseH: (i * 7) % 40, dueH: 20 + ((i * 13) % 50), weight: 1 + (i % 5), hours: Array.from({ length: kilns }, (_, kiln) => 6 + ((i * 5 + kiln * 3) % 11)) })),
    taken: Array.from({ length: kilns }, (_, kiln) => (kiln === 0 ? [{ fromH: 10, toH: 18 }] : [])),
  };
}
