import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { simulate } from "@/lib/domain/stress/simulate";
import { comeToRest, copySlab, evenSlab, holdUntil, lead, nothingSeen } from "@/lib/domain/stress/slab-at-depths";

const glass = catalogueGlass("soda-lime-casting");
const AS_SLAB = (mm: number) => ({ halfM: mm / 2000, centre: 1, surface: 1 });

/** Soak 8 h at 490 °C after a drop from 620, then three ramps, K/h. */
function bothWays(mm: number, rates: readonly [number, number, number]) {
  const corners = [430, 380, 21] as const;
  const slab = evenSlab(glass, AS_SLAB(mm), 620);
  const program: [number, number][] = [[0, 620], [130 / 150, 490], [130 / 150 + 8, 490]];
  lead(slab, 490, 130 / 150, nothingSeen());
  lead(slab, 490, 8, nothingSeen());
  const seen = nothingSeen();
  let [hours, fromC] = [130 / 150 + 8, 490];
  corners.forEach((toC, i) => {
    const ramp = (fromC - toC) / (rates[i] ?? 1);
    lead(slab, toC, ramp, seen);
    hours += ramp;
    fromC = toC;
    program.push([hours, toC]);
  });
  comeToRest(slab);
  const fine = simulate({ glass, shape: "slab", thicknessM: mm / 1000, mouldWallM: 0, surface: "fixed", startC: 620, program });
  return { slab, seen, fine, passing: Math.max(...fine.history.filter(({ h }) => h > 130 / 150 + 8).map((row) => Math.max(row.surfaceMPa, row.centreMPa))) };
}

describe("a slab at three depths against the same slab in two dozen cells", () => {
  it.each([[12, [55, 99, 330]], [25, [15, 30, 90]], [50, [4, 7, 22]], [100, [1, 2, 6]], [25, [150, 300, 500]]] as const)("%d mm at %j K/h: stresses within 3 %%", (mm, rates) => {
    const { slab, seen, fine, passing } = bothWays(mm, rates);
    expect(Math.abs(slab.centreMPa / fine.permanent.centreMPa - 1)).toBeLessThan(0.03);
    expect(Math.abs(slab.surfaceMPa / fine.permanent.surfaceMPa - 1)).toBeLessThan(0.03);
    expect(Math.abs(seen.tensionMPa / passing - 1)).toBeLessThan(0.03);
  });
});

describe("leading a slab", () => {
  it("goes on from a copy as from the slab itself, and leaves the slab alone", () => {
    const [slab, copy] = [evenSlab(glass, AS_SLAB(50), 560), evenSlab(glass, AS_SLAB(50), 560)];
    lead(slab, 500, 2, nothingSeen());
    copySlab(slab, copy);
    lead(copy, 300, 40, nothingSeen());
    const { surfaceC } = slab;
    lead(slab, 300, 40, nothingSeen());
    expect(surfaceC).toBe(500);
    expect(copy.tensionMPa).toBe(slab.tensionMPa);
  });
  it("holds until the excess is down to 1, to within a hundredth, and no longer than allowed", () => {
    const [slab, spare] = [evenSlab(glass, AS_SLAB(100), 600), evenSlab(glass, AS_SLAB(100), 600)];
    lead(slab, 520, 1, nothingSeen());
    const hours = holdUntil(slab, spare, 100, nothingSeen(), ({ coreSurfaceK }) => coreSurfaceK / 2);
    expect(slab.coreSurfaceK).toBeGreaterThan(1.9);
    expect(slab.coreSurfaceK).toBeLessThan(2.05);
    expect(hours).toBeGreaterThan(0.5);
    expect(holdUntil(slab, spare, 0.25, nothingSeen(), ({ coreSurfaceK }) => coreSurfaceK / 1e-9)).toBeCloseTo(0.25, 9);
  });
});
