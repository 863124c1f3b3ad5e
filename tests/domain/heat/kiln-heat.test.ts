import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { conductivity, diffusivity, heatBetween, heatCapacity } from "@/lib/domain/heat/glass-heat";
import { climbRateAt, coolingHours, naturalLimitC, naturalRateAt, powerForClimb } from "@/lib/domain/heat/kiln-heat";
import { lagHours, wallRateKPerH } from "@/lib/domain/heat/mould-heat";

/** A 0.6 m cube of 114 mm insulating brick: 5.2 W/K, 45 kJ/K (worked out). */
const CUBE = { powerW: 9000, lossWPerK: 5.2, capacityJPerK: 45_000 };

describe("a kiln as one lump", () => {
  it("needs 4.3 kW to hold 850 °C and 2.5 kW to hold 500 °C", () => {
    const hold = (celsius: number) => (powerForClimb(CUBE, celsius, 0) * 0.9) / 1000;
    expect(hold(850)).toBeCloseTo(4.3, 1);
    expect(hold(500)).toBeCloseTo(2.5, 1);
  });

  it("climbs at the rate its power was asked for", () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 200, noNaN: true }), fc.double({ min: 20, max: 950, noNaN: true }), (rate, celsius) => {
      expect(climbRateAt({ ...CUBE, powerW: powerForClimb(CUBE, celsius, rate) }, celsius)).toBeCloseTo(rate, 6);
    }));
  });

  it("cools by itself along the exponential of its time constant, C/UA = 2.40 h (Newton's law of cooling)", () => {
    const hours = coolingHours(CUBE, 850, 20 + 830 / Math.E, Infinity);
    expect(hours).toBeCloseTo(45_000 / 5.2 / 3600, 9);
  });

  it("follows a slow program exactly, and falls behind only below the temperature where it loses heat too slowly", () => {
    const rate = 50;
    const limitC = naturalLimitC(CUBE, rate);
    expect(naturalRateAt(CUBE, limitC)).toBeCloseTo(rate, 9);
    expect(coolingHours(CUBE, 480, limitC, rate)).toBeCloseTo((480 - limitC) / rate, 9);
    expect(coolingHours(CUBE, 480, limitC - 20, rate)).toBeGreaterThan((480 - limitC + 20) / rate);
  });

  it("never cools faster than asked or than it can", () => {
    const celsius = fc.double({ min: 30, max: 900, noNaN: true });
    fc.assert(fc.property(celsius, celsius, fc.double({ min: 0.1, max: 500, noNaN: true }), (a, b, rate) => {
      const [to, from] = a < b ? [a, b] : [b, a];
      const hours = coolingHours(CUBE, from, to, rate);
      expect(hours).toBeGreaterThanOrEqual((from - to) / rate - 1e-9);
      expect(hours).toBeGreaterThanOrEqual(coolingHours(CUBE, from, to, Infinity) - 1e-9);
    }));
  });
});

describe("heat in glass", () => {
  const soda = catalogueGlass("soda-lime-casting");
  it("has a diffusivity of 4.9e-7 at 20 and 4.7e-7 m²/s at 500 °C as a solid, near 4e-7 as a liquid (published forms of k and cp for float)", () => {
    expect(diffusivity(soda, 20, "solid") * 1e7).toBeCloseTo(4.9, 0);
    expect(diffusivity(soda, 500, "solid") * 1e7).toBeCloseTo(4.7, 0);
    expect(diffusivity(soda, 520, "liquid") * 1e7).toBeCloseTo(4.0, 0);
    expect(conductivity(soda, 20)).toBeCloseTo(0.993, 2);
  });
  it("takes 720 to 880 J/kgK near room temperature (handbook range for soda-lime)", () => {
    expect(heatCapacity(soda, 25, "solid")).toBeGreaterThan(720);
    expect(heatCapacity(soda, 25, "solid")).toBeLessThan(880);
  });
  it("takes about 1.05 to 1.25 kJ/kgK on average up to 850 °C (from memory, medium: 1.05; the liquid's step comes on top)", () => {
    const mean = heatBetween(soda, 20, 850) / 830;
    expect(mean).toBeGreaterThan(1000);
    expect(mean).toBeLessThan(1250);
  });
  it("has 45 % lead crystal near 3.3e-7 m²/s at its annealing temperature (from memory, low: 3.1–3.6e-7)", () => {
    const kappa = diffusivity(catalogueGlass("lead-crystal-45"), 430, "solid");
    expect(kappa * 1e7).toBeGreaterThan(3.1);
    expect(kappa * 1e7).toBeLessThan(3.7);
  });
});

describe("a mould wall", () => {
  it("delays by b²/2κ when there is no glass behind it, so twice the wall waits four times as long", () => {
    expect(lagHours(0.04, 0, 0.02)).toBeCloseTo(0.04 ** 2 / (2 * 3e-7) / 3600, 9);
    expect(lagHours(0.08, 0, 0.02) / lagHours(0.04, 0, 0.02)).toBeCloseTo(4, 9);
  });
  it("delays more with more glass behind it", () => {
    expect(lagHours(0.04, 3e6, 0.05)).toBeGreaterThan(lagHours(0.04, 3e6, 0.02));
  });
  it("stands 81 K/h at 40 mm and a quarter of that at 80 mm", () => {
    expect(wallRateKPerH(0.04)).toBeCloseTo(81, 0);
    expect(wallRateKPerH(0.08)).toBeCloseTo(81 / 4, 0);
  });
});
