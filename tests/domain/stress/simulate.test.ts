import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import type { Glass } from "@/lib/domain/glass/glass";
import { FLOAT_RELAXATION } from "@/lib/domain/glass/relaxation";
import { diffusivity } from "@/lib/domain/heat/glass-heat";
import type { BodyShape } from "@/lib/domain/heat/radial-grid";
import { stiffness } from "@/lib/domain/stress/quasi-steady";
import { simulate, USUAL_FINENESS, type Fineness, type Simulation } from "@/lib/domain/stress/simulate";
import { QUENCH_4_MM, SLOW_COOLING } from "../reference/tempering";

const float: Glass = { ...catalogueGlass("soda-lime-float"), relaxation: FLOAT_RELAXATION };
const steady: Glass = { ...float, conductivityWPerMK: [1.2, 0] };

function slowly(glass: Glass, mm: number, rateKPerH: number, shape: BodyShape = "slab", fineness: Fineness = USUAL_FINENESS): Simulation {
  return simulate({ glass, shape, thicknessM: mm / 1000, mouldWallM: 0, surface: "fixed", startC: 620, program: [[0, 620], [600 / rateKPerH, 20]] }, fineness);
}

describe("the 4 mm quench of Aronen & Karvinen (2018)", () => {
  const quench = simulate({ glass: float, shape: "slab", thicknessM: 0.004, mouldWallM: 0, surface: { hWPerM2K: 450 }, startC: 650, program: [[0, 20], [100 / 3600, 20]] });
  const at = (seconds: number, key: "surfaceMPa" | "centreMPa"): number => {
    const next = quench.history.findIndex((row) => row.h * 3600 >= seconds);
    const [a, b] = [quench.history[next - 1], quench.history[next]];
    if (a === undefined || b === undefined) return NaN;
    return a[key] + ((b[key] - a[key]) * (seconds / 3600 - a.h)) / (b.h - a.h);
  };
  const near = (own: number, printed: number) => Math.abs(own - printed) <= Math.max(3, 0.05 * Math.abs(printed));

  it.each(QUENCH_4_MM)("after $seconds s", ({ seconds, surface, middle }) => {
    expect({ own: at(seconds, "surfaceMPa"), near: near(at(seconds, "surfaceMPa"), surface) }).toMatchObject({ near: true });
    expect({ own: at(seconds, "centreMPa"), near: near(at(seconds, "centreMPa"), middle) }).toMatchObject({ near: true });
  });
  it("leaves −116 ± 1 MPa at the surface and +55 ± 1 in the middle", () => {
    expect(Math.abs(quench.permanent.surfaceMPa + 116)).toBeLessThanOrEqual(1);
    expect(Math.abs(quench.permanent.centreMPa - 55)).toBeLessThanOrEqual(1);
  });
});

describe("slow cooling", () => {
  it.each(SLOW_COOLING)("$mm mm at $rate K/h, liquid expansion $liquid, H/R $activation: within 3 %", ({ mm, rate, liquid, activation, surface, middle }) => {
    const solid = liquid === 25.1e-6 ? 9.1e-6 : 9e-6;
    const glass = { ...steady, expansionSolidPerK: solid, expansionLiquidPerK: liquid, relaxation: { ...FLOAT_RELAXATION, activationK: activation } };
    const { permanent } = slowly(glass, mm, rate);
    expect(Math.abs(permanent.surfaceMPa / surface - 1)).toBeLessThanOrEqual(0.03);
    expect(Math.abs(permanent.centreMPa / middle - 1)).toBeLessThanOrEqual(0.03);
  });

  const equal = { ...steady, expansionLiquidPerK: steady.expansionSolidPerK };
  /** Where the glass freezes at 15 K/h on these data. */
  const FROZEN_C = 512;
  const law = (mm: number, divisor: number) => (stiffness(equal) * (15 / 3600) * (mm / 2000) ** 2) / divisor / diffusivity(equal, FROZEN_C, "solid");

  it.each([["slab", 3, 6], ["cylinder", 8, 16], ["ball", 15, 15]] as const)(
    "equal expansions return the law of sudden freezing for a %s (Timoshenko & Goodier): ratio 0.99 ± 0.01",
    (shape, surfaceBy, centreBy) => {
      const { permanent } = slowly(equal, 25, 15, shape);
      expect(Math.abs(-permanent.surfaceMPa / law(25, surfaceBy) - 0.99)).toBeLessThanOrEqual(0.01);
      if (shape !== "ball") expect(Math.abs(permanent.centreMPa / law(25, centreBy) - 0.99)).toBeLessThanOrEqual(0.015);
    },
  );
  it("has half the surface stress in the middle of a slab, with the other sign", () => {
    const { permanent } = slowly(steady, 25, 15);
    expect(permanent.centreMPa / permanent.surfaceMPa).toBeCloseTo(-0.5, 2);
  });
  it("does not change with finer cells or steps", () => {
    const usual = slowly(steady, 25, 60).permanent;
    for (const finer of [{ ...USUAL_FINENESS, glassCells: 48 }, { ...USUAL_FINENESS, stepK: 0.25 }, { ...USUAL_FINENESS, heatErrorK: 0.001 }]) {
      expect(Math.abs(slowly(steady, 25, 60, "slab", finer).permanent.surfaceMPa / usual.surfaceMPa - 1)).toBeLessThan(0.005);
    }
  });
  it("leaves next to nothing when it soaks long and cools with hours to spare, and never tension at the surface", () => {
    const { permanent } = slowly(steady, 10, 1);
    expect(permanent.centreMPa).toBeLessThan(0.02);
    expect(permanent.surfaceMPa).toBeLessThanOrEqual(0);
  });
  it("lags behind a mould without more stress from an even lag", () => {
    const run = (mouldWallM: number) => simulate({ glass: steady, shape: "slab", thicknessM: 0.05, mouldWallM, surface: "fixed", startC: 620, program: [[0, 620], [150, 20]] });
    const [bare, moulded] = [run(0), run(0.04)];
    expect(Math.abs(moulded.permanent.centreMPa / bare.permanent.centreMPa - 1)).toBeLessThan(0.1);
    const surface = (one: Simulation) => one.history.find((row) => row.kilnC < 400)?.surfaceC ?? 0;
    expect(surface(moulded)).toBeGreaterThan(surface(bare) + 3);
  });
});
