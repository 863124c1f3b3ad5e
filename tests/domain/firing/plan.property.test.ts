import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { BRICK, KILN, planned, problemsOf, slab } from "./casting-builder";

const thickness = fc.double({ min: 10, max: 250, noNaN: true });
const glass = fc.constantFrom("soda-lime-casting", "soda-lime-float", "lead-crystal-24", "lead-crystal-30", "lead-crystal-45" as const);
const hours = (input: CastingInput) => planned(input).firing.hours;
/** The search stops when it gains less than this share of the hours: two answers may differ by as much either way. */
const SEARCH = 0.015;
/** Each plan follows a hundred cooling programs, so fewer castings are tried than elsewhere, and none is made smaller. */
const FEW = { numRuns: 10, endOnFailure: true };
const LONG_MS = 60_000;
/** A thousandth over a limit is less than the model itself is sure of. */
const KEPT = 1.005;

describe("a firing plan", () => {
  it("is never shorter for a thicker slab, bare or in a kiln of its own", () => {
    fc.assert(fc.property(glass, thickness, thickness, fc.boolean(), (g, a, b, bare) => {
      const [thin, thick] = a < b ? [a, b] : [b, a];
      const over = bare ? { glass: g } : { glass: g, kiln: KILN, mould: { wallMm: 30, plasterSilicaWater: [1, 1, 1] as const } };
      expect(hours(slab(thick, over))).toBeGreaterThanOrEqual(hours(slab(thin, over)) * (1 - SEARCH));
    }), FEW);
  }, LONG_MS);

  it("is never longer for a looser stress level", () => {
    const level = fc.record({ permanentMPa: fc.double({ min: 0.1, max: 2.3, noNaN: true }), passingMPa: fc.double({ min: 0.3, max: 4.9, noNaN: true }) });
    fc.assert(fc.property(thickness, level, fc.double({ min: 1, max: 3, noNaN: true }), (t, strict, factor) => {
      const loose = { permanentMPa: strict.permanentMPa * factor, passingMPa: strict.passingMPa * factor };
      expect(hours(slab(t, { stress: loose }))).toBeLessThanOrEqual(hours(slab(t, { stress: strict })) * (1 + SEARCH));
    }), FEW);
  }, LONG_MS);

  it("is never shorter when cooled from one face instead of all round", () => {
    const piece = fc.oneof(
      thickness.map((t): CastingInput["piece"] => ({ shape: "slab", sizeMm: [t] })),
      fc.tuple(thickness, thickness, thickness).map((sizeMm): CastingInput["piece"] => ({ shape: "brick", sizeMm })),
      fc.tuple(thickness, thickness).map((sizeMm): CastingInput["piece"] => ({ shape: "cylinder", sizeMm })),
      thickness.map((t): CastingInput["piece"] => ({ shape: "ball", sizeMm: [t] })),
    );
    fc.assert(fc.property(piece, (p) => {
      expect(hours(slab(1, { piece: p, cooling: "one-face" }))).toBeGreaterThanOrEqual(hours(slab(1, { piece: p })) * (1 - SEARCH));
    }), FEW);
  }, LONG_MS);

  it("is shorter for a round lump than for a slab of its thickness", () => {
    fc.assert(fc.property(fc.double({ min: 40, max: 250, noNaN: true }), (t) => {
      expect(hours(slab(1, { piece: { shape: "ball", sizeMm: [t] } }))).toBeLessThan(hours(slab(t)));
    }), FEW);
  }, LONG_MS);

  it("grows with the square of the thickness in the limit", () => {
    const ratio = planned(slab(400)).firing.annealingHours / planned(slab(200)).firing.annealingHours;
    expect(ratio).toBeGreaterThan(3.4);
    expect(ratio).toBeLessThan(4.1);
  });

  it("adds up: the stages' hours are the firing's, every number is finite, rates match temperatures", () => {
    fc.assert(fc.property(glass, thickness, fc.integer({ min: 20, max: 70 }), fc.boolean(), (g, t, wallMm, dried) => {
      const plan = planned({ ...BRICK, glass: g, feeder: { diameterMm: 40, lengthMm: 40 }, piece: { shape: "brick", sizeMm: [t * 1.5, t * 1.2, t] }, mould: { wallMm, plasterSilicaWater: [1, 1, 1], driedBeforeLoading: dried } });
      expect(plan.firing.stages.reduce((sum, stage) => sum + stage.hours, 0)).toBeCloseTo(plan.firing.hours, 6);
      let from = 20;
      for (const stage of plan.firing.stages) {
        expect(Number.isFinite(stage.hours) && stage.hours >= 0).toBe(true);
        expect(from + stage.rateKPerH * stage.hours).toBeCloseTo(stage.toC, 6);
        from = stage.toC;
      }
      expect(plan.firing.stages.at(0)?.stage).toBe("Dry");
      expect(plan.firing.stages.at(-1)?.stage).toBe("Open");
      expect(plan.reservation.hours).toBeGreaterThanOrEqual(plan.firing.hours);
      expect(plan.mould.wetKg).toBeGreaterThan(plan.mould.dryKg);
      expect(plan.mould.dryKg).toBeGreaterThan(plan.mould.firedKg);
    }), FEW);
  }, LONG_MS);

  it("keeps to the chosen stresses whatever they are", () => {
    fc.assert(fc.property(thickness, fc.double({ min: 0.05, max: 5, noNaN: true }), fc.double({ min: 0.1, max: 8, noNaN: true }), (t, permanentMPa, passingMPa) => {
      const { stress } = planned(slab(t, { stress: { permanentMPa, passingMPa } }));
      expect(Math.max(stress.permanentCentreMPa, stress.permanentSurfaceMPa)).toBeLessThanOrEqual(permanentMPa * KEPT);
      expect(stress.passingMPa).toBeLessThanOrEqual(passingMPa * KEPT);
    }), FEW);
  }, LONG_MS);

  it("answers any numbers at all with a plan or with named problems, never with an exception or NaN", () => {
    const wild = fc.oneof(fc.double(), fc.constantFrom(0, -1, NaN, Infinity, 1e9));
    fc.assert(fc.property(wild, wild, wild, wild, (a, b, c, d) => {
      const input: CastingInput = { ...BRICK, piece: { shape: "brick", sizeMm: [a, b, c] }, mould: { wallMm: d, plasterSilicaWater: [1, 1, 1] } };
      for (const problem of problemsOf(input)) expect(problem.field).toBeTruthy();
    }));
  }, LONG_MS);
});
