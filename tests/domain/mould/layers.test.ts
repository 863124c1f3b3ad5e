import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layersOf, tooThinForMesh } from "@/lib/domain/mould/layers";

const names = (wallMm: number, kg: number) => layersOf(wallMm, kg).map(({ kind, number, of }) => `${kind} ${number}/${of}`);

/** Thicknesses: common practice, no source; checked as what the workshop is told. */
describe("the coats of a wall", () => {
  it("of 40 mm are two face coats, a back-up coat and a jacket", () => {
    expect(names(40, 7.5)).toEqual(["face coat 1/2", "face coat 2/2", "back-up coat 1/1", "jacket 1/1"]);
    expect(layersOf(40, 7.5).map(({ toMm }) => Math.round(toMm))).toEqual([5, 10, 27, 40]);
  });

  it.each([[29.9, false], [30, true], [30.1, true]])("of %d mm have a jacket: %s", (wallMm, has) => {
    expect(layersOf(wallMm, 1).some(({ kind }) => kind === "jacket")).toBe(has);
  });

  it("lie without a gap from the wax to the outside, none thicker than 20 mm, none empty", () => {
    fc.assert(fc.property(fc.double({ min: 10, max: 150, noNaN: true }), fc.double({ min: 0, max: 200, noNaN: true }), (wallMm, kg) => {
      let at = 0;
      for (const { fromMm, toMm } of layersOf(wallMm, kg)) {
        expect(fromMm).toBe(at);
        expect(toMm).toBeGreaterThan(fromMm);
        expect(toMm - fromMm).toBeLessThanOrEqual(20 + 1e-6);
        at = toMm;
      }
      expect(at).toBe(wallMm);
    }));
  });

  it.each([[19.9, 0], [20, 1], [20.1, 1]])("around %d kg of glass carry %d mesh", (kg, meshes) => {
    expect(layersOf(60, kg).filter(({ meshBefore }) => meshBefore)).toHaveLength(meshes);
  });

  it("keep mesh 15 mm and more from the glass, and covered", () => {
    fc.assert(fc.property(fc.double({ min: 30, max: 150, noNaN: true }), (wallMm) => {
      const mesh = layersOf(wallMm, 30).find(({ meshBefore }) => meshBefore);
      expect(mesh?.fromMm).toBeGreaterThanOrEqual(15);
      expect(mesh?.toMm).toBeGreaterThan(mesh?.fromMm ?? Infinity);
    }));
  });

  it("say when a wall is too thin for the mesh its glass asks for", () => {
    expect(tooThinForMesh(29, 20)).toBe(true);
    expect(tooThinForMesh(30, 20)).toBe(false);
    expect(tooThinForMesh(29, 19.9)).toBe(false);
  });
});
