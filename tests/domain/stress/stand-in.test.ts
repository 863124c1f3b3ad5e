import { describe, expect, it } from "vitest";
import { coolingBody, slabBody } from "@/lib/domain/shape/cooling-body";
import { solidOf } from "@/lib/domain/shape/solid";
import { standInFor, stressInBody } from "@/lib/domain/stress/stand-in";

const ROW = { centreMPa: 1, surfaceMPa: -2 };
const profileTo = (halfM: number) => ({ atM: [0, halfM / 2, halfM], MPa: [1, 0.25, -2] });

describe("the stress of a body in terms of the slab that stands for it", () => {
  it("is the slab's own for a slab", () => {
    const as = standInFor(slabBody(0.08));
    const stress = stressInBody(as, ROW, profileTo(as.halfM));
    expect(stress.centreMPa).toBeCloseTo(1, 9);
    expect(stress.surfaceMPa).toBeCloseTo(-2, 9);
    expect(stress.MPa.map((one) => Math.round(one * 1e9) / 1e9)).toEqual([1, 0.25, -2]);
  });
  it("is in proportion in a ball, in the middle and at the surface alike, wherever it is asked", () => {
    const as = standInFor(coolingBody(solidOf("ball", [80]), "all-round"));
    const { centreMPa, surfaceMPa, MPa } = stressInBody(as, ROW, profileTo(as.halfM));
    expect([MPa[0], MPa.at(-1)]).toEqual([centreMPa, surfaceMPa]);
    expect(as.centre).not.toBeCloseTo(1, 1);
  });
  it("names the largest tension, be it at the surface, in the middle or between", () => {
    const as = standInFor(slabBody(0.08));
    const tensionOf = (centreMPa: number, between: number, surfaceMPa: number) => stressInBody(as, { centreMPa, surfaceMPa }, { atM: [0, as.halfM / 2, as.halfM], MPa: [centreMPa, between, surfaceMPa] }).tensionMPa;
    expect(tensionOf(1, 0.2, -2)).toBeCloseTo(1, 9);
    expect(tensionOf(-1, 0.2, 2)).toBeCloseTo(2, 9);
    expect(tensionOf(-1, 0.2, -2)).toBeCloseTo(0.2, 9);
  });
});
