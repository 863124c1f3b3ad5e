import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { temperatureAt } from "@/lib/domain/glass/viscosity";
import { slabBody } from "@/lib/domain/shape/cooling-body";
import type { CoolingTask } from "@/lib/domain/stress/cooling-task";
import { pathOf, shortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { simulate } from "@/lib/domain/stress/simulate";
import { impliedStresses } from "@/lib/cli/bench/implied-stresses";
import { LEAD_CRYSTAL_PROGRAMS, SODA_LIME_PROGRAMS, type SlabProgram } from "@/lib/cli/bench/thick-slab-tables";

const LONG_MS = 60_000;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
const covered = ({ thicknessMm }: SlabProgram): boolean => thicknessMm >= 19 && thicknessMm <= 150;

function taskFor(program: SlabProgram, limits: CoolingTask["limits"]): CoolingTask {
  const glass = catalogueGlass(program.glass);
  return { glass, body: slabBody(program.thicknessMm / 1000), limits, fromC: temperatureAt(glass.viscosity, 9), dropKPerH: 150, fastestKPerH: Infinity, leastSoakHours: 0 };
}

/** Hours from the start of the soak to the room. */
function annealingHours(task: CoolingTask): number {
  const path = pathOf(task, shortestCooling(task));
  return (path.at(-1)?.[0] ?? 0) - (path.at(-5)?.[0] ?? 0);
}

/** Bullseye Glass Co., "Annealing Thick Slabs" (from memory, high); Gaffer Glass, "Annealing schedule for casting crystal". */
describe("the published thick-slab tables, followed by the transient model from above the transition", () => {
  it.each([["soda-lime", SODA_LIME_PROGRAMS], ["lead crystal", LEAD_CRYSTAL_PROGRAMS]] as const)("%s: permanent and passing stress are level from 19 to 150 mm within 35 %% of their mean", (_, programs) => {
    const stresses = programs.filter(covered).map(impliedStresses);
    for (const key of ["permanentMPa", "passingMPa"] as const) {
      const mean = stresses.reduce((sum, one) => sum + one[key], 0) / stresses.length;
      for (const one of stresses) expect(Math.abs(one[key] / mean - 1)).toBeLessThanOrEqual(0.35);
    }
  });

  it.each([["soda-lime", SODA_LIME_PROGRAMS], ["lead crystal", LEAD_CRYSTAL_PROGRAMS]] as const)("%s: at a row's own stresses the shortest cooling is never longer than the row, and 0.93 of it or less at the median", (_, programs) => {
    const ratios = programs.filter(covered).map((program) => annealingHours(taskFor(program, impliedStresses(program))) / program.hours);
    for (const ratio of ratios) expect(ratio).toBeLessThanOrEqual(1);
    expect(median(ratios)).toBeLessThanOrEqual(0.93);
  }, LONG_MS);
});

describe("the shortest cooling", () => {
  const program = SODA_LIME_PROGRAMS.find(({ thicknessMm }) => thicknessMm === 50) as SlabProgram;
  const task = taskFor(program, { permanentMPa: 0.4, passingMPa: 1.4 });
  const way = shortestCooling(task);

  it("keeps to both limits when the body is followed by finer cells and steps", () => {
    const { permanent, peakTensionMPa } = simulate(
      { glass: task.glass, shape: "slab", thicknessM: 0.05, mouldWallM: 0, surface: "fixed", startC: task.fromC, program: pathOf(task, way) },
      { glassCells: 48, mouldCells: 12, stepK: 0.25, heatErrorK: 0.005 },
    );
    expect(permanent.centreMPa).toBeLessThanOrEqual(0.4 * 1.01);
    expect(peakTensionMPa).toBeLessThanOrEqual(1.4 * 1.01);
  });
  it("uses both limits up: no rate could be much faster", () => {
    expect(way.stress.permanentCentreMPa).toBeGreaterThan(0.4 * 0.98);
    expect(way.stress.passingMPa).toBeGreaterThan(1.4 * 0.98);
  });
  it("soaks until the core is level, and never slows down again", () => {
    expect(way.soakHours).toBeGreaterThan(0);
    expect(way.slow[0]?.rateKPerH).toBeLessThanOrEqual(way.slow[1]?.rateKPerH ?? 0);
    expect(way.slow[1]?.rateKPerH).toBeLessThanOrEqual(way.last.rateKPerH);
  });
  it("holds every soak as long as is asked", () => {
    const long = shortestCooling({ ...task, leastSoakHours: 8 });
    expect(long.soakHours).toBeGreaterThanOrEqual(8);
  });
  it("never goes faster than the mould lets it", () => {
    const slow = shortestCooling({ ...task, fastestKPerH: 6 });
    for (const { rateKPerH } of [...slow.slow, slow.last]) expect(rateKPerH).toBeLessThanOrEqual(6);
  });
  it("slows the end of the drop when a thick bare slab would be pulled beyond the limit", () => {
    expect(way.drop.rateKPerH).toBeLessThan(150);
    expect(shortestCooling({ ...task, body: slabBody(0.012) }).drop.rateKPerH).toBe(150);
  });
});
