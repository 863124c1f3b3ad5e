import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { BRICK, KILN, planned, problemsOf, slab } from "./casting-builder";

const warned = (input: CastingInput, words: string) => planned(input).warnings.some((text) => text.includes(words));

describe("what a plan says beyond its numbers", () => {
  it("names a kiln that is too low or too narrow for mould and pot", () => {
    const { loadMm } = planned(BRICK);
    const inside = (width: number, depth: number, height: number): CastingInput => ({ ...BRICK, kiln: { ...KILN, insideMm: [width, depth, height] } });
    expect(warned(inside(600, 600, loadMm.height), "high inside")).toBe(false);
    expect(warned(inside(600, 600, loadMm.height - 1), "high inside")).toBe(true);
    expect(warned(inside(loadMm.depth, loadMm.width, 600), "this kiln is")).toBe(false);
    expect(warned(inside(loadMm.width - 1, loadMm.width - 1, 600), "this kiln is")).toBe(true);
  });

  it("says which sides were assumed for a slab, until its wax is weighed", () => {
    expect(warned(slab(50), "square plate of 300 mm")).toBe(true);
    expect(warned(slab(50, { piece: { shape: "slab", sizeMm: [50], waxKg: 4 } }), "square plate")).toBe(false);
  });

  it("asks back for a slab narrower than it is thick", () => {
    const wax = (waxKg: number) => problemsOf(slab(100, { piece: { shape: "slab", sizeMm: [100], waxKg } })).map((problem) => problem.code);
    expect(wax(0.93)).toEqual([]);
    expect(wax(0.9)).toEqual(["units-mixed-up"]);
  });

  it("says when no kiln was named, and when a firing is longer than twelve weeks", () => {
    expect(warned(slab(50), "ideal kiln")).toBe(true);
    expect(warned(BRICK, "ideal kiln")).toBe(false);
    expect(warned(slab(300), "twelve kiln-weeks")).toBe(false);
    expect(warned(slab(400), "twelve kiln-weeks")).toBe(true);
  });

  it("cools thin glass in a thick mould no faster than the wall stands", () => {
    const plan = planned(slab(15, { mould: { wallMm: 75, plasterSilicaWater: [1, 1, 1] } }));
    const cooling = plan.firing.stages.filter((stage) => stage.stage === "Slow cool" || stage.stage === "Run-down");
    expect(cooling.some((stage) => stage.why.includes("60 K across it"))).toBe(true);
    expect(Math.max(...cooling.map((stage) => -stage.rateKPerH))).toBeLessThan(20);
    expect(plan.stress.permanentCentreMPa).toBeLessThan(0.4);
  });

  it("heats a cold bare slab within the working stress of glass: 50 mm at up to about 120 K/h (handbook rule, from memory)", () => {
    const climb = planned(slab(50)).firing.stages.find((stage) => stage.stage === "Climb");
    expect(climb?.rateKPerH).toBeGreaterThan(100);
    expect(climb?.rateKPerH).toBeLessThan(150);
  });
});

describe("rates that no kiln cools at", () => {
  it("are not planned, however loose the level: 600 K/h at most", () => {
    const { firing } = planned(slab(6, { stress: { permanentMPa: 7, passingMPa: 15 } }));
    for (const { rateKPerH } of firing.stages) expect(Math.abs(rateKPerH)).toBeLessThanOrEqual(600 * 1.0001);
  });
});

describe("a limit that a plan keeps", () => {
  it("is not warned about, from the strictest level to the loosest", () => {
    for (const stress of ["careful", { permanentMPa: 0.02, passingMPa: 0.05 }, { permanentMPa: 2, passingMPa: 0.5 }, { permanentMPa: 7, passingMPa: 15 }] as const) {
      for (const mm of [10, 60]) expect(planned(slab(mm, { stress })).warnings.filter((text) => text.includes("no way down"))).toEqual([]);
    }
  });
});
