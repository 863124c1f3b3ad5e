import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { splitCost } from "@/lib/domain/sharing/split-cost";

const alone = fc.array(fc.integer({ min: 0, max: 100_000 }), { minLength: 1, maxLength: 6 }).map((costs) => costs.map((cost, i) => ({ id: String(i), alone: cost })));

describe("the split of a shared firing's cost", () => {
  it("adds up to the smallest coin and lets nobody pay more than alone", () => {
    fc.assert(fc.property(alone, fc.double({ min: 0, max: 1, noNaN: true }), (own, part) => {
      const total = Math.round(part * own.reduce((sum, one) => sum + one.alone, 0));
      const shares = splitCost(total, own);
      expect(shares?.reduce((sum, { pays }) => sum + pays, 0)).toBe(total);
      for (const { pays, alone: most } of shares ?? []) {
        expect(Number.isInteger(pays)).toBe(true);
        expect(pays).toBeLessThanOrEqual(most);
        expect(pays).toBeGreaterThanOrEqual(0);
      }
    }), { numRuns: 500 });
  });

  it("asks the same part of everybody, within a coin", () => {
    expect(splitCost(1500, [{ id: "a", alone: 2000 }, { id: "b", alone: 1000 }])).toEqual([{ id: "a", alone: 2000, pays: 1000 }, { id: "b", alone: 1000, pays: 500 }]);
    expect(splitCost(100, [{ id: "a", alone: 100 }, { id: "b", alone: 100 }, { id: "c", alone: 100 }])?.map(({ pays }) => pays)).toEqual([34, 33, 33]);
  });

  it("is none where the firing costs more than all apart: at the sum it still is, a coin above not", () => {
    expect(splitCost(300, [{ id: "a", alone: 100 }, { id: "b", alone: 200 }])?.map(({ pays }) => pays)).toEqual([100, 200]);
    expect(splitCost(301, [{ id: "a", alone: 100 }, { id: "b", alone: 200 }])).toBeUndefined();
    expect(splitCost(NaN, [{ id: "a", alone: 100 }])).toBeUndefined();
  });
});
