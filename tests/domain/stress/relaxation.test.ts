import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { radialGrid } from "@/lib/domain/heat/radial-grid";
import { balancedStrain, stressOf } from "@/lib/domain/stress/equilibrium";
import { AXIAL, fade, HOOP, noMemory, RADIAL, remember } from "@/lib/domain/stress/memory";
import { relaxingGlass, shift } from "@/lib/domain/stress/relaxing-glass";
import { equilibrium, relaxStructure } from "@/lib/domain/stress/structure";
import { STRETCHED } from "../reference/stretched-exponential";

const float = catalogueGlass("soda-lime-float");

/** A glass whose structure and shear relax by one series, times of 1 s at the reference. */
function stretched(weights: readonly number[], rates: readonly number[]) {
  const terms = weights.map((weight, i) => [weight, 1 / (rates[i] ?? 1)] as const);
  return relaxingGlass({ ...float, relaxation: { ...float.relaxation, structure: terms, shear: terms } });
}

describe("a stretched exponential as a Prony series (Mauro & Mauro 2018)", () => {
  it.each(STRETCHED)("has weights that add up to one: exponent $beta", ({ weights }) => {
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 4);
  });

  it.each(STRETCHED)("is how the structure relaxes at a constant temperature: exponent $beta", ({ beta, within, weights, rates }) => {
    const glass = stretched(weights, rates);
    const T = Float64Array.of(glass.referenceK);
    const jump = 1e-3;
    const structure = equilibrium(glass, Float64Array.of(glass.referenceK + jump));
    for (let t = 1e-6; t < 100; ) {
      const dt = 0.01 * t;
      relaxStructure(glass, structure, T, T, dt);
      t += dt;
      if (t > 1e-3) expect(Math.abs(((structure.fictive[0] ?? 0) - glass.referenceK) / jump - Math.exp(-(t ** beta)))).toBeLessThan(within + 0.001);
    }
  });

  it.each(STRETCHED)("is how shear stress relaxes at a constant strain: exponent $beta", ({ beta, within, weights, rates }) => {
    const glass = stretched(weights, rates);
    const free = new Float64Array(1);
    for (const t of [1e-3, 1e-2, 0.1, 1, 3, 10, 100]) {
      const memory = noMemory(glass, 1);
      fade(glass, memory, Float64Array.of(0));
      remember(glass, memory, Float64Array.of(1e-4, -5e-5, -5e-5), free);
      const { left } = fade(glass, memory, Float64Array.of(t));
      const fresh = 2 * (float.youngGPa * 1e9 / (2 * (1 + float.poisson))) * 1e-4;
      expect(Math.abs((left[RADIAL] ?? 0) / fresh - Math.exp(-(t ** beta)))).toBeLessThan(within + 5e-4);
    }
  });
});

describe("the shift of relaxation with temperature (Tool, Narayanaswamy)", () => {
  const glass = relaxingGlass(float);
  it("is one at the reference and grows by H/R per inverse temperature at equilibrium", () => {
    const [warm, reference] = [glass.referenceK + 20, glass.referenceK];
    expect(shift(glass, reference, reference)).toBeCloseTo(1, 12);
    expect(Math.log(shift(glass, warm, warm))).toBeCloseTo(glass.activationK * (1 / reference - 1 / warm), 9);
  });
  it("counts the frozen structure by what the nonlinearity leaves of it", () => {
    const [cold, reference] = [glass.referenceK - 50, glass.referenceK];
    expect(Math.log(shift(glass, cold, reference))).toBeCloseTo(glass.nonlinearity * glass.activationK * (1 / reference - 1 / cold), 9);
  });
});

describe("balance of a body", () => {
  const cells = 16;
  const glass = relaxingGlass(float);
  const fresh = () => fade(glass, noMemory(glass, cells), new Float64Array(cells));
  const widths = Array.from({ length: cells }, (_, i) => 0.001 + 1e-5 * i);

  it.each(["slab", "cylinder", "ball"] as const)("a %s that expands evenly has no stress", (shape) => {
    const free = new Float64Array(cells).fill(1e-3);
    const strain = balancedStrain(radialGrid(shape, widths), fresh(), free);
    for (let i = 0; i < cells; i += 1) for (const d of [RADIAL, HOOP, AXIAL]) expect(Math.abs(stressOf(fresh(), strain, free, i, d))).toBeLessThan(1);
  });

  it.each(["cylinder", "ball"] as const)("a %s under an even inner pressure gives way evenly, and is left without stress", (shape) => {
    const pressed = { ...fresh(), left: new Float64Array(3 * cells).fill(-1e6) };
    const free = new Float64Array(cells);
    const strain = balancedStrain(radialGrid(shape, widths), pressed, free);
    for (let i = 0; i < cells; i += 1) for (const d of [RADIAL, HOOP, AXIAL]) expect(Math.abs(stressOf(pressed, strain, free, i, d))).toBeLessThan(1);
  });
});
