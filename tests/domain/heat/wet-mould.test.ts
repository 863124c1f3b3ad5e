import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boundWaterHours, hoursThrough, withLatentHeat, type WallDrying } from "@/lib/domain/heat/wet-mould";
import { FIRED_MOULD } from "@/lib/domain/heat/mould-material";

const WALL: WallDrying = { wallM: 0.04, boundKgPerM3: 140, startC: 95, rateKPerH: 30, holdC: 180 };

/** λ of Stefan's law, λ·e^(λ²)·erf λ = c(Ts − Tm)/(L·√π): Carslaw & Jaeger, Conduction of Heat in Solids, chapter 11. */
function stefan(number: number): number {
  const erf = (x: number): number => {
    let [sum, term] = [x, x];
    for (let n = 1; n < 60; n += 1) {
      term *= (-x * x) / n;
      sum += term / (2 * n + 1);
    }
    return (2 / Math.sqrt(Math.PI)) * sum;
  };
  let [low, high] = [0, 3];
  for (let i = 0; i < 80; i += 1) {
    const middle = (low + high) / 2;
    if (middle * Math.exp(middle ** 2) * erf(middle) * Math.sqrt(Math.PI) < number) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

describe("latent heat in a wall", () => {
  /** The wall starts at the temperature where its water leaves; its outside is at once 60 K warmer. */
  it.each([1e8, 2.7e8, 6e8])("lets the front advance by Stefan's law with %d J/m³ in a narrow band, within 4 %%", (joulesPerM3) => {
    const [wallM, meltC, bandK, warmerK] = [0.04, 120, 1, 60];
    const capacity = FIRED_MOULD.capacity(20);
    const lambda = stefan((capacity * warmerK) / joulesPerM3);
    const expected = (wallM / (2 * lambda)) ** 2 / 3e-7 / 3600;
    const hours = hoursThrough(wallM, withLatentHeat(FIRED_MOULD, joulesPerM3, meltC, meltC + bandK), bandK, meltC + bandK, { startC: meltC, rateKPerH: 1e6, holdC: meltC + bandK + warmerK });
    expect(Math.abs(hours / expected - 1)).toBeLessThan(0.04);
  });
});

describe("driving bound water out of a wall", () => {
  it("takes about three hours at 40 mm (published mould practice: 2 h and more at 177 °C for small moulds)", () => {
    const hours = boundWaterHours(WALL);
    expect(hours).toBeGreaterThan(2);
    expect(hours).toBeLessThan(7);
  });
  it("is never shorter for a thicker or a wetter wall, nor longer for a hotter hold", () => {
    // The front is followed in steps from the beginning of the ramp: two walls may end theirs a little differently, measured by all of that time.
    const STEPS = 0.03;
    const one = fc.record({ wallM: fc.double({ min: 0.012, max: 0.1, noNaN: true }), boundKgPerM3: fc.double({ min: 10, max: 300, noNaN: true }), holdC: fc.double({ min: 170, max: 220, noNaN: true }) });
    fc.assert(fc.property(one, fc.double({ min: 1, max: 1.5, noNaN: true }), (some, more) => {
      const wall = { ...WALL, ...some };
      const hours = boundWaterHours(wall);
      const little = STEPS * (hours + (wall.holdC - wall.startC) / wall.rateKPerH);
      expect(boundWaterHours({ ...wall, wallM: wall.wallM * more })).toBeGreaterThanOrEqual(hours - little);
      expect(boundWaterHours({ ...wall, boundKgPerM3: wall.boundKgPerM3 * more })).toBeGreaterThanOrEqual(hours - little);
      expect(boundWaterHours({ ...wall, holdC: wall.holdC + 20 * (more - 1) })).toBeLessThanOrEqual(hours + little);
    }), { numRuns: 25 });
  });
  it("grows with the square of a thick wall", () => {
    const fast = { ...WALL, rateKPerH: 1e5 };
    expect(boundWaterHours({ ...fast, wallM: 0.1 }) / boundWaterHours({ ...fast, wallM: 0.05 })).toBeCloseTo(4, 0);
  });
});
