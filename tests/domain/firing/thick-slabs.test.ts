import { describe, expect, it } from "vitest";
import { LEAD_CRYSTAL_THICK_SLABS, SODA_LIME_THICK_SLABS } from "@/lib/cli/bench/thick-slab-tables";
import { planned, slab } from "./casting-builder";

/** Asked for between 19 and 150 mm; the tables themselves differ by this much from each other. */
const WITHIN = 0.15;
const covered = (row: { readonly thicknessMm: number }) => row.thicknessMm >= 19 && row.thicknessMm <= 150;

describe("hours from soak to room of bare slabs, cooled all round, at the careful level", () => {
  it.each(SODA_LIME_THICK_SLABS.filter(covered))("soda-lime, $thicknessMm mm, is within 15 % of the printed $hours h", ({ thicknessMm, hours }) => {
    const own = planned(slab(thicknessMm)).firing.annealingHours;
    expect(Math.abs(own / hours - 1)).toBeLessThanOrEqual(WITHIN);
  });
  it.each(LEAD_CRYSTAL_THICK_SLABS.filter(covered))("lead crystal, $thicknessMm mm, is within 15 % of the printed $hours h", ({ thicknessMm, hours }) => {
    const own = planned(slab(thicknessMm, { glass: "lead-crystal-45" })).firing.annealingHours;
    expect(Math.abs(own / hours - 1)).toBeLessThanOrEqual(WITHIN);
  });
  it("stays near the table at 200 mm, beyond the range that was asked for", () => {
    const own = planned(slab(200)).firing.annealingHours;
    expect(Math.abs(own / 651 - 1)).toBeLessThanOrEqual(WITHIN);
  });
  it("keeps the first rate times thickness squared near the 10 000 K·mm²/h that the tables share", () => {
    for (const thicknessMm of [19, 25, 50, 100, 150]) {
      for (const glass of ["soda-lime-casting", "lead-crystal-45"] as const) {
        const first = planned(slab(thicknessMm, { glass })).firing.stages.find((stage) => stage.stage === "Slow cool");
        const invariant = Math.abs(first?.rateKPerH ?? 0) * thicknessMm ** 2;
        expect(invariant).toBeGreaterThan(7_500);
        expect(invariant).toBeLessThan(12_000);
      }
    }
  });
});

describe("common practice, no source", () => {
  it("a solid, very thick casting (about 200 mm) takes about four weeks", () => {
    const weeks = planned(slab(200, { piece: { shape: "brick", sizeMm: [600, 600, 200] }, mould: { wallMm: 50, plasterSilicaWater: [1, 1, 1] } })).reservation.kilnWeeks;
    expect(weeks).toBeGreaterThan(3);
    expect(weeks).toBeLessThan(5.5);
  });
  it("a small lost-wax casting in 45 % crystal takes five to seven days", () => {
    const plan = planned({
      glass: "lead-crystal-45", cooling: "all-round", stress: "careful",
      piece: { shape: "brick", sizeMm: [150, 120, 80] },
      mould: { wallMm: 35, plasterSilicaWater: [1, 1, 1] }, feeder: { diameterMm: 25, lengthMm: 50 },
      kiln: { insideMm: [450, 450, 450], powerKw: 6, lossWPerK: 3.5, heatCapacityKJPerK: 28, maxC: 1000 },
    });
    const days = plan.reservation.hours / 24;
    expect(days).toBeGreaterThan(5);
    expect(days).toBeLessThan(7.5);
  });
});
