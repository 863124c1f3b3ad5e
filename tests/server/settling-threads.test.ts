import { describe, expect, it } from "vitest";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { verifyDays } from "@/lib/domain/settling/verify";
import { settleInWorker, type Progress } from "@/lib/server/settling/settle-in-worker";
import type { DaysPlan } from "@/lib/server/settling/settle-task";
import { warmThreads } from "@/lib/server/settling/threads";
import { leastDayCost, weekdaysProblem } from "@/tests/helpers/settling";

const LONG = 60;
/** Too many runs for a few weeks of two kilns: nobody proves this within a moment. */
const crowded = weekdaysProblem(
  Array.from({ length: 40 }, (_, i) => ({ due: 8 + ((i * 7) % 60), weight: 1 + (i % 5), earliest: 1 + ((i * 5) % 30), daysByClass: [4 + (i % 7), 5 + (i % 6)] })),
  { horizon: 500 },
);
const small = weekdaysProblem([{ due: 3 }, { due: 5, weight: 4 }, { due: 4, weight: 2 }]);

function settle(problem: DayProblem, seconds: number, changes: { readonly seed?: number; readonly iterations?: number | null } = {}, onProgress?: (progress: Progress) => void) {
  return settleInWorker({ kind: "days", problem, seed: 1, iterations: null, ...changes }, seconds, onProgress);
}

describe("a settlement in threads of its own", () => {
  it("gives a plan that stands, and ends early when it is proven to be the best", async () => {
    const { plan, bound } = await settle(small, LONG).result;
    expect(verifyDays(small, (plan as DaysPlan).placements, plan.cost)).toEqual([]);
    expect(plan.cost).toBeCloseTo(leastDayCost(small), 6);
    expect(bound).toBe(plan.cost);
  }, 60_000);

  it("tells how good the best so far is, never worse than before, and ends with it when stopped", async () => {
    const told: Progress[] = [];
    const running = settle(crowded, LONG, {}, (progress) => {
      told.push(progress);
      if (told.length === 3) running.stop();
    });
    const { plan, bound } = await running.result;
    expect(told.length).toBeGreaterThanOrEqual(3);
    expect(told.map(({ cost }) => cost)).toEqual(told.map(({ cost }) => cost).toSorted((a, b) => b - a));
    expect(told.map((one) => one.bound)).toEqual(told.map((one) => one.bound).toSorted((a, b) => a - b));
    expect(plan.cost).toBeLessThanOrEqual(told.at(-1)?.cost ?? -1);
    expect(bound).toBeLessThanOrEqual(plan.cost);
    expect(verifyDays(crowded, (plan as DaysPlan).placements, plan.cost)).toEqual([]);
  }, 90_000);

  it("gives the same plan for the same seed and iterations, another one for another seed, in whichever thread", async () => {
    warmThreads(2);
    const plans = await Promise.all([1, 1, 2].map(async (seed) => (await settle(crowded, LONG, { seed, iterations: 60 }).result).plan));
    expect(plans[1]).toEqual(plans[0]);
    expect(plans[2]).not.toEqual(plans[0]);
    expect((await settle(crowded, LONG, { seed: 1, iterations: 60 }).result).plan).toEqual(plans[0]);
  }, 90_000);

  it("says an error of its thread, and the next settlement is none the worse", async () => {
    const broken = { ...small, jobs: [null] } as unknown as DayProblem;
    await expect(settle(broken, 2).result).rejects.toThrow();
    expect((await settle(small, LONG, { iterations: 50 }).result).plan.leftOut).toBe(0);
  }, 60_000);

  it("gives what it has when no time is left at all", async () => {
    const { plan } = await settle(small, 0.001).result;
    expect(verifyDays(small, (plan as DaysPlan).placements, plan.cost)).toEqual([]);
  }, 60_000);
});
