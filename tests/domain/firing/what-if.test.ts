import { describe, expect, it } from "vitest";
import { NOT_COVERED } from "@/lib/domain/firing/not-covered";
import { thicknessReach, whatIfOf, withWhatIf } from "@/lib/domain/firing/what-if";
import { BRICK, planned, slab } from "./casting-builder";

describe("what if a casting were otherwise", () => {
  it("starts from the casting itself, whose plan it leaves as it is", () => {
    expect(whatIfOf(BRICK)).toEqual({ thickestMm: 100, wallMm: 40, stress: "careful" });
    expect(withWhatIf(BRICK, whatIfOf(BRICK))).toEqual(BRICK);
  });
  it("takes the thickest part that was given before the size", () => {
    expect(whatIfOf({ ...BRICK, piece: { ...BRICK.piece, thickestMm: 70 } }).thickestMm).toBe(70);
  });
  it("plans a thinner piece, a thinner wall and a looser level for fewer hours", () => {
    const now = whatIfOf(BRICK);
    const hours = (over: Partial<typeof now>) => planned(withWhatIf(BRICK, { ...now, ...over })).reservation.hours;
    const present = hours({});
    expect(hours({ thickestMm: 60 })).toBeLessThan(present);
    expect(hours({ wallMm: 25 })).toBeLessThan(present);
    expect(hours({ stress: { permanentMPa: 0.8, passingMPa: 3 } })).toBeLessThan(present);
  });
  it("asks nothing of the thickness of a mesh or of the wall of bare glass", () => {
    const bare = slab(50);
    expect(whatIfOf(bare).wallMm).toBeUndefined();
    expect(withWhatIf(bare, { ...whatIfOf(bare), wallMm: 30 })).toEqual(bare);
    expect(whatIfOf({ ...BRICK, piece: { shape: "mesh", file: "figure.stl" } }).thickestMm).toBeUndefined();
  });
});

describe("the thicknesses worth asking about", () => {
  it("go from two fifths to twice the present one", () => {
    expect(thicknessReach(slab(50), 50)).toEqual([20, 100]);
  });
  it("end where the piece is no longer, and hold the present one", () => {
    expect(thicknessReach({ ...BRICK, piece: { shape: "ball", sizeMm: [80] } }, 80)).toEqual([32, 80]);
    expect(thicknessReach(BRICK, 100)).toEqual([40, 200]);
  });
  it("stay within what is planned at all", () => {
    expect(thicknessReach(slab(300), 300)).toEqual([120, 500]);
    expect(thicknessReach(slab(3), 3)).toEqual([2, 6]);
  });
});

it("warns of everything that the calculation does not cover", () => {
  const told = planned(BRICK).warnings.join(" ");
  for (const { what } of NOT_COVERED) expect(told).toContain(what);
});
