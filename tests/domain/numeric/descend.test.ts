import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { descend } from "@/lib/domain/numeric/descend";

describe("descent by simplex", () => {
  it("finds the lowest point of any tilted bowl", () => {
    const one = fc.double({ min: -3, max: 3, noNaN: true });
    const steep = fc.double({ min: 0.5, max: 5, noNaN: true });
    fc.assert(fc.property(one, one, steep, steep, (a, b, p, q) => {
      const cost = ([x = 0, y = 0]: readonly number[]) => 1 + p * (x - a) ** 2 + q * (y - b + 0.3 * x) ** 2;
      const { x } = descend(cost, [0, 0], [1, 1], 1e-10, 400);
      expect(cost(x)).toBeLessThan(1.0001);
    }));
  });
  /** Rosenbrock's valley, the usual hard case; its lowest point is 0 at (1, 1). */
  it("follows a curved valley", () => {
    const { x, cost } = descend(([x = 0, y = 0]) => 100 * (y - x * x) ** 2 + (1 - x) ** 2, [-1.2, 1], [0.5, 0.5], 1e-14, 1000);
    expect(cost).toBeLessThan(1e-8);
    expect(x[0]).toBeCloseTo(1, 3);
  });
  it("tries no more often than allowed by more than one round", () => {
    let trials = 0;
    descend(([x = 0]) => { trials += 1; return x * x; }, [5], [1], 0, 20);
    expect(trials).toBeLessThanOrEqual(24);
  });
});
