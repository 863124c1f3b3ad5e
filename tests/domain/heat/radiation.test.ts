import { describe, expect, it } from "vitest";
import { filmCoefficient, heatStep, type HeatProblem } from "@/lib/domain/heat/conduct";
import { radialGrid } from "@/lib/domain/heat/radial-grid";

const SIGMA = 5.670374419e-8;
const CAPACITY = 2.5e6;
const HALF_M = 0.001;

/** So good a conductor that it is of one temperature. */
const THIN: HeatProblem = {
  grid: radialGrid("slab", [HALF_M / 2, HALF_M / 2]),
  materials: [0, 1].map(() => ({ conductivity: () => 400, capacity: () => CAPACITY })),
  surface: { hWPerM2K: 0, emissivity: 0.9 },
};

/**
 * Seconds for a thin plate to cool from T1 to T2 by radiation alone to a wall at T0, K:
 * dT/dt = −a·(T⁴ − T0⁴), t = [artanh-like and arctan terms]/(2·a·T0³) (any text on heat transfer).
 */
function seconds(a: number, t1: number, t2: number, t0: number): number {
  const part = (t: number): number => (Math.log((t + t0) / (t - t0)) / 2 + Math.atan(t / t0)) / (2 * t0 ** 3 * a);
  return part(t2) - part(t1);
}

describe("radiation to the kiln", () => {
  it("cools a thin plate as the closed form has it, within a thousandth of its fall", () => {
    const a = (0.9 * SIGMA) / (CAPACITY * HALF_M);
    let temperatures: Float64Array = new Float64Array(2).fill(800);
    const total = seconds(a, 800 + 273.15, 400 + 273.15, 20 + 273.15);
    const steps = 800;
    for (let i = 0; i < steps; i += 1) temperatures = heatStep(THIN, temperatures, total / steps, () => 20, 0).temperatures;
    expect(Math.abs((temperatures[0] ?? 0) - 400)).toBeLessThan(0.4);
  });
  it("adds to convection, and is nothing without an emissivity", () => {
    expect(filmCoefficient({ hWPerM2K: 12 }, 500, 480)).toBe(12);
    expect(filmCoefficient({ hWPerM2K: 12, emissivity: 1 }, 500, 500)).toBeCloseTo(12 + 4 * SIGMA * 773.15 ** 3, 9);
  });
});
