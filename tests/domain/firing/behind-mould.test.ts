import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planHistory } from "@/lib/domain/firing/plan-history";
import { stressLimits } from "@/lib/domain/stress/stress-level";
import { planned, slab } from "./casting-builder";

/** The plan is followed from the end of Flow, with all of it at one temperature; the history from the cold kiln. That makes up to a hundredth. */
const MET = 1.015;

const behind = (thicknessMm: number, wallMm: number, over: Partial<CastingInput> = {}): CastingInput =>
  slab(thicknessMm, { mould: { wallMm, plasterSilicaWater: [1, 1, 1] }, ...over });

function met(input: CastingInput): { readonly permanent: number; readonly passing: number } {
  const { permanentMPa, passingMPa } = stressLimits(input.stress);
  const history = planHistory(input, planned(input));
  if (!history.ok) throw new Error(history.problems[0].message);
  const { stress } = history.value;
  return { permanent: Math.max(stress.permanentCentreMPa, stress.permanentSurfaceMPa) / permanentMPa, passing: stress.passingMPa / passingMPa };
}

describe("a way down behind a mould", () => {
  it("keeps to the level's limits when the program is followed behind the wall, whatever they are", () => {
    const level = fc.oneof(fc.constant("careful" as const), fc.record({ permanentMPa: fc.double({ min: 0.1, max: 2.5, noNaN: true }), passingMPa: fc.double({ min: 0.4, max: 5, noNaN: true }) }));
    const glass = fc.constantFrom("soda-lime-casting", "lead-crystal-24", "lead-crystal-45" as const);
    fc.assert(fc.property(fc.double({ min: 10, max: 230, noNaN: true }), fc.double({ min: 12, max: 90, noNaN: true }), glass, level, (t, wall, g, stress) => {
      const { permanent, passing } = met(behind(t, wall, { glass: g, stress }));
      expect(permanent).toBeLessThanOrEqual(MET);
      expect(passing).toBeLessThanOrEqual(MET);
    }), { numRuns: 10, endOnFailure: true });
  }, 60_000);
  it.each([[50, 40], [100, 40], [200, 50]])("uses its limits: a slab of %s mm in a wall of %s mm", (t, wall) => {
    const { permanent, passing } = met(behind(t, wall));
    expect(permanent).toBeGreaterThanOrEqual(0.97);
    expect(passing).toBeGreaterThanOrEqual(0.95);
  });
  it("slows the drop of a thick body in a thin wall, whose surface would be pulled while the core levels", () => {
    const brick = (wall: number) => behind(1, wall, { piece: { shape: "brick", sizeMm: [345, 276, 230] } });
    const drops = (wall: number) => planned(brick(wall)).firing.stages.filter(({ stage }) => stage === "Drop");
    expect(drops(14).length).toBe(2);
    expect(drops(60).length).toBe(1);
    expect(met(brick(14)).passing).toBeLessThanOrEqual(1.005);
  });
});
