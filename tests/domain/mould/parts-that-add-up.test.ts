import fc from "fast-check";
import { expect, it } from "vitest";
import { partsThatAddUp } from "@/lib/domain/mould/parts-that-add-up";

it("rounds parts so that they add up to their rounded total, each within a step of itself", () => {
  fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 50, noNaN: true }), { minLength: 1, maxLength: 12 }), (values) => {
    const parts = partsThatAddUp(values, 0.01);
    const total = values.reduce((a, b) => a + b, 0);
    expect(parts.reduce((a, b) => a + b, 0)).toBeCloseTo(Math.round(total / 0.01) * 0.01, 8);
    values.forEach((value, at) => expect(Math.abs((parts[at] ?? NaN) - value)).toBeLessThanOrEqual(0.01 + 1e-9));
  }));
});
