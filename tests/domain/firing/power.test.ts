import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { firingPower, kWhUntil } from "@/lib/domain/firing/power";
import { BRICK, KILN, planned } from "./casting-builder";

const castings = fc.record({
  glass: fc.constantFrom("soda-lime-casting", "lead-crystal-24", "lead-crystal-45" as const),
  side: fc.double({ min: 40, max: 260, noNaN: true }),
  wallMm: fc.integer({ min: 20, max: 75 }),
  dried: fc.boolean(),
  bare: fc.boolean(),
  lossWPerK: fc.double({ min: 1, max: 9, noNaN: true }),
  powerKw: fc.double({ min: 8, max: 20, noNaN: true }),
}).map(({ glass, side, wallMm, dried, bare, lossWPerK, powerKw }): CastingInput => ({
  glass, piece: { shape: "brick", sizeMm: [side * 1.3, side * 1.1, side] }, cooling: "all-round", stress: "careful",
  kiln: { ...KILN, lossWPerK, powerKw },
  ...(bare ? {} : { mould: { wallMm, plasterSilicaWater: [1, 1, 1], driedBeforeLoading: dried }, feeder: { diameterMm: 40, lengthMm: 40 } }),
}));

describe("the power of a firing over time", () => {
  it("adds up to the plan's energy, has no gap and is never below nothing", () => {
    fc.assert(fc.property(castings, (input) => {
      const plan = planFiring(input);
      fc.pre(plan.ok);
      if (!plan.ok) return;
      const curve = firingPower(plan.value, input.kiln);
      expect(Math.abs(curve.kWh / plan.value.energy.kWh - 1)).toBeLessThan(1e-9);
      let at = 0;
      for (const { fromH, toH, fromKw, toKw } of curve.spans) {
        expect(fromH).toBeCloseTo(at, 9);
        expect(toH).toBeGreaterThanOrEqual(fromH);
        expect(Math.min(fromKw, toKw)).toBeGreaterThanOrEqual(0);
        at = toH;
      }
      expect(at).toBeCloseTo(plan.value.firing.hours, 6);
    }), { numRuns: 15 });
  });

  it("is what holding takes: UA times the difference from the room, 4.3 kW at 850 °C with 5.2 W/K (worked out)", () => {
    const plan = planned({ ...BRICK, processC: 850 });
    const curve = firingPower(plan, BRICK.kiln);
    let at = 0;
    for (const stage of plan.firing.stages) {
      const middle = at + stage.hours / 2;
      if (stage.stage === "Flow") expect(kWhUntil(curve, middle + 0.05) - kWhUntil(curve, middle - 0.05)).toBeCloseTo(0.1 * 4.316, 3);
      at += stage.hours;
    }
  });

  it("draws the water's heat during Dry and nothing of it later: a dried mould differs there only", () => {
    const plan = planned(BRICK);
    const dry = plan.firing.stages.filter(({ stage }) => stage === "Dry").reduce((sum, { hours }) => sum + hours, 0);
    const without = { ...plan, mould: { ...plan.mould, freeWaterKg: 0, boundWaterKg: 0 } };
    const [wet, waterless] = [firingPower(plan, BRICK.kiln), firingPower(without, BRICK.kiln)];
    const joules = plan.mould.freeWaterKg * 2.6e6 + plan.mould.boundWaterKg * (0.609e6 / 0.209);
    expect(kWhUntil(wet, dry) - kWhUntil(waterless, dry)).toBeCloseTo(joules / 3.6e6, 9);
    expect(wet.kWh - kWhUntil(wet, dry)).toBeCloseTo(waterless.kWh - kWhUntil(waterless, dry), 9);
  });

  it("grows with every hour, from nothing at door closed to all of it at the end and after", () => {
    const curve = firingPower(planned(BRICK), BRICK.kiln);
    expect(kWhUntil(curve, 0)).toBe(0);
    let before = 0;
    for (let hour = 1; hour < 400; hour += 1) {
      const now = kWhUntil(curve, hour);
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
    expect(kWhUntil(curve, 1e6)).toBe(curve.kWh);
  });
});
