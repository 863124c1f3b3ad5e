import { describe, expect, it } from "vitest";
import { gritName, GRITS, type GritScale } from "@/lib/domain/coldworking/grits";
import { AS_CAST_MM, grains, gritSteps, PREPOLISH_FROM_UM, type CastSurface } from "@/lib/domain/coldworking/sequence";

const SCALES: readonly GritScale[] = ["F", "P"];
const SURFACES: readonly CastSurface[] = ["smooth", "usual", "rough"];
const every = SCALES.flatMap((scale) => SURFACES.map((surface) => [scale, surface] as const));
const names = (scale: GritScale, surface?: CastSurface) => gritSteps(scale, surface).map(({ grit }) => gritName(grit)).join(" ");

describe("grit sizes", () => {
  /** Published anchors: P400 about 35 µm, P600 25.75, P2500 8.4. */
  it("meet the published anchors", () => {
    const size = (scale: GritScale, number: number) => GRITS[scale].find((grit) => grit.number === number)?.medianUm;
    for (const [number, um] of [[400, 35], [600, 25.75], [2500, 8.4]] as const) expect(Math.abs((size("P", number) ?? NaN) - um)).toBeLessThan(0.1);
  });

  it.each(SCALES)("of %s fall as the number grows", (scale) => {
    GRITS[scale].slice(1).forEach((grit, at) => {
      expect(grit.number).toBeGreaterThan(GRITS[scale][at]?.number ?? Infinity);
      expect(grit.medianUm).toBeLessThan(GRITS[scale][at]?.medianUm ?? 0);
    });
  });

  it("agree between the scales at 220 and part above it: F400 is half of P400", () => {
    const size = (scale: GritScale, number: number) => GRITS[scale].find((grit) => grit.number === number)?.medianUm ?? NaN;
    expect(size("P", 220) / size("F", 220)).toBeLessThan(1.2);
    expect(size("F", 400) / size("P", 400)).toBeLessThan(0.51);
  });
});

describe("the sequence of grits", () => {
  it("from a usual plaster mould is four grits, as published ones from 60 or 80 to 400 are", () => {
    expect(names("F")).toBe("F80 F150 F280 F400");
    expect(names("P")).toBe("P100 P220 P500 P1200");
  });

  it("begins finer on a smooth surface and coarser on a rough one", () => {
    for (const scale of SCALES) {
      const start = (surface: CastSurface) => gritSteps(scale, surface)[0]?.grit.medianUm ?? NaN;
      expect(start("smooth")).toBeLessThan(start("usual"));
      expect(start("rough")).toBeGreaterThan(start("usual"));
    }
  });

  it.each(every)("of %s from a %s surface never skips: next size at least 1/2.5 of the last, and smaller", (scale, surface) => {
    const steps = gritSteps(scale, surface);
    steps.slice(1).forEach(({ grit }, at) => {
      const last = steps[at]?.grit.medianUm ?? NaN;
      expect(grit.medianUm).toBeLessThan(last);
      expect(grit.medianUm).toBeGreaterThanOrEqual(last / 2.5);
    });
  });

  it.each(every)("of %s from a %s surface takes off the cast skin first, then three sizes of the grit before", (scale, surface) => {
    const steps = gritSteps(scale, surface);
    expect(steps[0]?.removeUm).toBe(1000 * AS_CAST_MM[surface]);
    steps.slice(1).forEach(({ removeUm }, at) => expect(removeUm).toBeCloseTo(3 * (steps[at]?.grit.medianUm ?? NaN), 9));
  });

  it.each(every)("of %s from a %s surface ends where pre-polish begins, and not before", (scale, surface) => {
    const steps = gritSteps(scale, surface);
    expect(steps.at(-1)?.grit.medianUm).toBeLessThanOrEqual(PREPOLISH_FROM_UM);
    for (const { grit } of steps.slice(0, -1)) expect(grit.medianUm).toBeGreaterThan(PREPOLISH_FROM_UM);
    expect(steps.every((step) => grains(step) > 0)).toBe(true);
  });
});
