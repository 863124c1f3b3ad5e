import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { brickConduction, cylinderConduction, slabConduction } from "@/lib/domain/shape/conduction";
import { coolingBody } from "@/lib/domain/shape/cooling-body";

/**
 * Largest and mean u of −∇²u = 1 with u = 0 on the surface, over a² with a = half the smallest
 * dimension: double series worked out independently; slab, cylinder and ball limits as in Carslaw &
 * Jaeger, Conduction of Heat in Solids.
 */
const BRICKS = [
  [[1, 1, 1], 0.2249, 0.0807],
  [[1, 1, 2], 0.287, 0.1099],
  [[1, 1.5, 1.5], 0.3502, 0.1293],
  [[1, 2, 2], 0.4246, 0.1659],
  [[1, 2, 3], 0.4501, 0.1868],
  [[1, 3, 3], 0.4828, 0.2121],
  [[1, 4, 4], 0.4963, 0.2389],
] as const;

describe("steady cooling of finite bodies", () => {
  it.each(BRICKS)("brick of half sides %j", (half, max, mean) => {
    const { maxM2, meanM2 } = brickConduction([2 * half[0], 2 * half[1], 2 * half[2]]);
    expect(Math.abs(maxM2 / max - 1)).toBeLessThan(1e-3);
    expect(Math.abs(meanM2 / mean - 1)).toBeLessThan(1e-3);
  });
  it.each([[2, 0.2007, 0.0752], [4, 0.2455, 0.0997]])("cylinder of radius 1 and height %d", (height, max, mean) => {
    const { maxM2, meanM2 } = cylinderConduction(2, height);
    expect(Math.abs(maxM2 / max - 1)).toBeLessThan(1e-3);
    expect(Math.abs(meanM2 / mean - 1)).toBeLessThan(1e-3);
  });
  it("disc of height R, by half its height", () => {
    const { maxM2, meanM2 } = cylinderConduction(4, 2);
    expect(Math.abs(maxM2 / 0.4058 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(meanM2 / 0.161 - 1)).toBeLessThan(1e-3);
  });
  it("slab: t²/8 in the middle, t²/12 on average", () => {
    expect(slabConduction(0.1).maxM2).toBeCloseTo(0.01 / 8, 12);
    expect(slabConduction(0.1).meanM2).toBeCloseTo(0.01 / 12, 12);
  });
  it("does not care how a brick lies and scales with the square of its size", () => {
    const side = fc.double({ min: 0.01, max: 0.5, noNaN: true });
    fc.assert(fc.property(side, side, side, fc.double({ min: 0.5, max: 4, noNaN: true }), (a, b, c, k) => {
      const one = brickConduction([a, b, c]).maxM2;
      expect(brickConduction([c, a, b]).maxM2 / one).toBeCloseTo(1, 6);
      expect(brickConduction([k * a, k * b, k * c]).maxM2 / one / k ** 2).toBeCloseTo(1, 6);
    }));
  });
});

describe("slab-equivalent thickness", () => {
  it.each([
    ["a ball is 0.577 of its diameter", { shape: "ball", diameterM: 0.2 }, 0.2 * 0.577],
    ["a cube is 0.671 of its side", { shape: "brick", lengthsM: [0.2, 0.2, 0.2] }, 0.2 * 0.671],
    ["a long cylinder is 0.707 of its diameter", { shape: "cylinder", diameterM: 0.1, heightM: 5 }, 0.1 * 0.707],
  ] as const)("%s", (_what, solid, expected) => {
    expect(Math.abs(coolingBody(solid, "all-round").slabEquivalentM / expected - 1)).toBeLessThan(2e-3);
  });
  it("is the thickness itself for a slab, and twice that from one face", () => {
    const slab = { shape: "slab", thicknessM: 0.05, sideM: 0.4 } as const;
    expect(coolingBody(slab, "all-round").slabEquivalentM).toBeCloseTo(0.05, 12);
    expect(coolingBody(slab, "one-face").slabEquivalentM).toBeCloseTo(0.1, 12);
  });
});
