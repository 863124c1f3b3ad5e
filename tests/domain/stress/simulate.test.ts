import { describe, expect, it } from "vitest";
import {
  cooledSteadily, FLOAT, quench, quenchDeviations, rampDeviations, slowDeviations, STEADY_FLOAT, stepDeviations, suddenFreezing,
} from "@/lib/cli/bench/simulation-errors";
import { historyAt } from "@/lib/domain/stress/history-at";
import { simulate, USUAL_FINENESS, type Simulation } from "@/lib/domain/stress/simulate";

const SHAPES = ["slab", "cylinder", "ball"] as const;

describe("temperatures of a simulation with its usual cells and steps, against the exact series", () => {
  it.each(stepDeviations())("$what: within 0.1 % of the driving difference", ({ off }) => {
    expect(Math.abs(off)).toBeLessThanOrEqual(1e-3);
  });
  it.each(rampDeviations())("$what: within 0.1 % of q·L²/κ", ({ off }) => {
    expect(Math.abs(off)).toBeLessThanOrEqual(1e-3);
  });
  it("come nearer with more cells and finer steps", () => {
    const worst = (fineness: typeof USUAL_FINENESS) => Math.max(...rampDeviations(fineness).map(({ off }) => Math.abs(off)));
    expect(worst({ ...USUAL_FINENESS, glassCells: 48 })).toBeLessThan(worst(USUAL_FINENESS) / 3);
  });
});

describe("the 4 mm quench of Aronen & Karvinen (2018)", () => {
  it.each(quenchDeviations())("after $what: within 3 MPa or 5 %", ({ off, published }) => {
    expect(Math.abs(off)).toBeLessThanOrEqual(Math.max(3, 0.05 * Math.abs(published)));
  });
  it("leaves −116 ± 1 MPa at the surface and +55 ± 1 in the middle", () => {
    const { permanent } = quench();
    expect(Math.abs(permanent.surfaceMPa + 116)).toBeLessThanOrEqual(1);
    expect(Math.abs(permanent.centreMPa - 55)).toBeLessThanOrEqual(1);
  });
});

describe("slow cooling", () => {
  it.each(slowDeviations())("$what: within 3 % of an independent program", ({ off, published }) => {
    expect(Math.abs(off / published)).toBeLessThanOrEqual(0.03);
  });
  it.each(SHAPES)("with equal expansions returns the law of sudden freezing for a %s (Timoshenko & Goodier): 0.99 ± 0.01", (shape) => {
    for (const glassCells of [24, 96]) {
      const { surface, centre } = suddenFreezing(shape, { ...USUAL_FINENESS, glassCells });
      expect(Math.abs(surface - 0.99)).toBeLessThanOrEqual(0.01);
      expect(Math.abs(centre - 0.99)).toBeLessThanOrEqual(0.01);
    }
  });
  it("leaves half the surface stress in the middle of a slab, with the other sign", () => {
    const { permanent } = cooledSteadily(STEADY_FLOAT, 25, 15);
    expect(permanent.centreMPa / permanent.surfaceMPa).toBeCloseTo(-0.5, 2);
  });
  it.each(SHAPES)("does not change with finer cells or steps: %s", (shape) => {
    const usual = cooledSteadily(STEADY_FLOAT, 25, 60, shape).permanent;
    for (const finer of [{ ...USUAL_FINENESS, glassCells: 48 }, { ...USUAL_FINENESS, stepK: 0.25 }, { ...USUAL_FINENESS, heatErrorK: 0.001 }]) {
      const { permanent } = cooledSteadily(STEADY_FLOAT, 25, 60, shape, finer);
      expect(Math.abs(permanent.surfaceMPa / usual.surfaceMPa - 1)).toBeLessThan(0.005);
      expect(Math.abs(permanent.centreMPa / usual.centreMPa - 1)).toBeLessThan(0.005);
    }
  });
  it("leaves next to nothing at 1 K/h, and never tension at the surface", () => {
    const { permanent } = cooledSteadily(STEADY_FLOAT, 10, 1);
    expect(permanent.centreMPa).toBeLessThan(0.02);
    expect(permanent.surfaceMPa).toBeLessThanOrEqual(0);
  });
  it("behind a mould lags, without more stress from an even lag", () => {
    const run = (mouldWallM: number) => simulate({ glass: STEADY_FLOAT, shape: "slab", thicknessM: 0.05, mouldWallM, surface: "fixed", startC: 620, program: [[0, 620], [150, 20]] });
    const [bare, moulded] = [run(0), run(0.04)];
    expect(Math.abs(moulded.permanent.centreMPa / bare.permanent.centreMPa - 1)).toBeLessThan(0.1);
    const surface = (one: Simulation) => one.history.find((row) => row.kilnC < 400)?.surfaceC ?? 0;
    expect(surface(moulded)).toBeGreaterThan(surface(bare) + 3);
  });
});

describe("a whole path", () => {
  const heated = (stepK: number) =>
    simulate({ glass: FLOAT, shape: "slab", thicknessM: 0.05, mouldWallM: 0, surface: "fixed", startC: 20, program: [[0, 20], [0.5, 620], [0.6, 300], [3, 20]] }, { ...USUAL_FINENESS, stepK });

  it("begins with its start, free of stress, and ends even at 20 °C", () => {
    const { history } = heated(1);
    expect(history[0]).toEqual({ h: 0, kilnC: 20, surfaceC: 20, coreC: 20, surfaceMPa: 0, centreMPa: 0, tensionMPa: 0 });
    expect(historyAt(history, 1800, "surfaceC")).toBeCloseTo(620, 0);
    expect(history.at(-1)?.coreC).toBeCloseTo(20, 1);
    expect(historyAt(history, 1e9, "coreC")).toBeUndefined();
  });
  it("takes fine steps while only its hot surface passes the transition: first order, 5 % in a harsh case", () => {
    const [whole, half, quarter] = [1, 0.5, 0.25].map((stepK) => heated(stepK).permanent.surfaceMPa) as [number, number, number];
    const [first, second] = [half - whole, quarter - half];
    expect(Math.abs(second / first)).toBeLessThan(0.65);
    expect(Math.abs((2 * first) / whole)).toBeLessThan(0.05);
  });
  it("soaked after heating leaves what the same glass leaves that started there", () => {
    const run = (startC: number, program: readonly (readonly [number, number])[]) => simulate({ glass: FLOAT, shape: "slab", thicknessM: 0.05, mouldWallM: 0, surface: "fixed", startC, program }).permanent.centreMPa;
    expect(run(20, [[0, 20], [10, 620], [20, 620], [60, 20]]) / run(620, [[0, 620], [40, 20]])).toBeCloseTo(1, 2);
  });
});
