import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { fixedPoints } from "@/lib/domain/glass/viscosity";
import { slabBody } from "@/lib/domain/shape/cooling-body";
import { heatingRateKPerH } from "@/lib/domain/stress/quasi-steady";
import { simulate } from "@/lib/domain/stress/simulate";
import { fastestWarming, keptStructureC, type WarmingTask } from "@/lib/domain/stress/warming";

const LIMIT = 7;
const GLASSES = ["soda-lime-casting", "soda-lime-float", "lead-crystal-24", "lead-crystal-45", "borosilicate-33"] as const;
const slabTask = (id: (typeof GLASSES)[number], thicknessM: number, over: Partial<WarmingTask> = {}): WarmingTask => {
  const glass = catalogueGlass(id);
  return { glass, body: slabBody(thicknessM), toC: fixedPoints(glass.viscosity).softeningC + 80, limitMPa: LIMIT, fastestKPerH: 150, cooledKPerH: 3, ...over };
};

/** Largest tension of a slab on these ramps, by the model at twice the usual fineness. */
function tension(task: WarmingTask, thicknessM: number, program: readonly (readonly [number, number])[]): number {
  const endH = program.at(-1)?.[0] ?? 0;
  const { history } = simulate(
    { glass: task.glass, shape: "slab", thicknessM, mouldWallM: 0, surface: "fixed", startC: 20, structureC: keptStructureC(task.glass, task.cooledKPerH), program },
    { glassCells: 48, mouldCells: 12, stepK: 0.5, heatErrorK: 0.01 },
  );
  return Math.max(...history.filter(({ h }) => h <= endH).map(({ tensionMPa }) => tensionMPa));
}

const ramps = (task: WarmingTask, scale = 1): readonly (readonly [number, number])[] => {
  const { cold, through } = fastestWarming(task);
  const first = (cold.toC - 20) / (scale * cold.rateKPerH);
  const second = first + (through.toC - cold.toC) / (scale * through.rateKPerH);
  return [[0, 20], [first, cold.toC], [second, through.toC], [second + (task.toC - through.toC) / task.fastestKPerH, task.toC]];
};

describe("heating bare glass", () => {
  it.each(GLASSES)("keeps %s within its tension all the way up, at any thickness", (id) => {
    fc.assert(fc.property(fc.double({ min: 0.008, max: 0.25, noNaN: true }), (thicknessM) => {
      const task = slabTask(id, thicknessM);
      expect(tension(task, thicknessM, ramps(task))).toBeLessThanOrEqual(1.03 * LIMIT);
    }), { numRuns: 4, endOnFailure: true });
  }, 60_000);
  it.each(GLASSES)("goes as fast as that allows in thick %s: a tenth faster would be too much", (id) => {
    const task = slabTask(id, 0.15);
    expect(tension(task, 0.15, ramps(task, 1.1))).toBeGreaterThan(LIMIT);
  });
  it("is never faster than steady heating of cold glass allows, nor than a kiln goes", () => {
    for (const id of GLASSES) for (const thicknessM of [0.01, 0.05, 0.2]) {
      const task = slabTask(id, thicknessM);
      const { cold, through } = fastestWarming(task);
      expect(cold.rateKPerH).toBeLessThanOrEqual(Math.min(150, heatingRateKPerH(task.glass, task.body, LIMIT)));
      expect(through.rateKPerH).toBeLessThanOrEqual(cold.rateKPerH);
    }
  });
  it("is slow until the core is soft, not only the surface", () => {
    const { through } = fastestWarming(slabTask("soda-lime-casting", 0.15));
    expect(through.toC).toBeGreaterThan(fixedPoints(catalogueGlass("soda-lime-casting").viscosity).annealingC + 20);
  });
  it("ends where the program does", () => {
    const { cold, through } = fastestWarming(slabTask("soda-lime-casting", 0.1, { toC: 500 }));
    expect([cold.toC, through.toC]).toEqual([488, 500]);
  });
});

describe("the structure that a glass keeps", () => {
  it("is that of 10^12 Pa·s when it cooled at 10 K/min, the usual definition of the transition", () => {
    for (const id of GLASSES) expect(keptStructureC(catalogueGlass(id), 600)).toBeCloseTo(fixedPoints(catalogueGlass(id).viscosity).annealingC, 6);
  });
  it("is that of a tenfold stiffer glass when it cooled at a tenth of the rate", () => {
    const glass = catalogueGlass("soda-lime-casting");
    const { strainC } = fixedPoints(glass.viscosity);
    expect(keptStructureC(glass, 600 / 10 ** 1.5)).toBeCloseTo(strainC, 6);
  });
});
