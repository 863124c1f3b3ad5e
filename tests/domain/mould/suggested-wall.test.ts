import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { suggestedWallMm } from "@/lib/domain/mould/suggested-wall";

describe("the suggested mould wall", () => {
  // Common practice, no source: 25 to 35 mm for 1 to 5 kg of glass, 35 to 50 mm for 5 to 20 kg, 50 to 75 mm above.
  it.each([
    [1, 25, 35],
    [8, 35, 50],
    [27, 50, 75],
  ])("of %d kg lies within what is customary, %d to %d mm", (kg, least, most) => {
    expect(suggestedWallMm(kg)).toBeGreaterThanOrEqual(least);
    expect(suggestedWallMm(kg)).toBeLessThanOrEqual(most);
  });

  it("never falls as the glass gets heavier and stays within 25 and 75 mm", () => {
    const kg = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(
      fc.property(kg, kg, (a, b) => {
        const [light, heavy] = [suggestedWallMm(Math.min(a, b)), suggestedWallMm(Math.max(a, b))];
        expect(light).toBeGreaterThanOrEqual(25);
        expect(heavy).toBeGreaterThanOrEqual(light);
        expect(heavy).toBeLessThanOrEqual(75);
      }),
    );
  });

  it("is a whole number of millimetres, and the thinnest for no mass at all", () => {
    expect([suggestedWallMm(8), suggestedWallMm(0), suggestedWallMm(NaN)]).toEqual([44, 25, 25]);
  });
});
