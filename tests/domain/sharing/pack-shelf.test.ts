import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apartMm, packShelf, type Footprint, type Shelf } from "@/lib/domain/sharing/pack-shelf";

const SHELF: Shelf = { widthMm: 600, depthMm: 600, wallMm: 40, betweenMm: 50 };
const box = (id: string, widthMm: number, depthMm: number): Footprint => ({ id, widthMm, depthMm, round: false });
const disc = (id: string, mm: number): Footprint => ({ id, widthMm: mm, depthMm: mm, round: true });
const footprint = fc.record({ w: fc.integer({ min: 40, max: 320 }), d: fc.integer({ min: 40, max: 320 }), round: fc.boolean() });
const set = fc.array(footprint, { minLength: 1, maxLength: 5 }).map((all) => all.map(({ w, d, round }, i) => (round ? disc(String(i), w) : box(String(i), w, d))));

describe("a shelf", () => {
  it("never lets two stand nearer than the clearance, nor one nearer to a wall", () => {
    fc.assert(fc.property(set, (footprints) => {
      const { places } = packShelf(SHELF, footprints);
      if (places === undefined) return;
      expect(places.map(({ id }) => id).sort()).toEqual(footprints.map(({ id }) => id).sort());
      for (const one of places) {
        expect(one.xMm).toBeGreaterThanOrEqual(40 - 1e-6);
        expect(one.yMm).toBeGreaterThanOrEqual(40 - 1e-6);
        expect(one.xMm + one.widthMm).toBeLessThanOrEqual(560 + 1e-6);
        expect(one.yMm + one.depthMm).toBeLessThanOrEqual(560 + 1e-6);
        for (const other of places) if (other.id < one.id) expect(apartMm(one, other)).toBeGreaterThanOrEqual(50 - 1e-6);
      }
    }), { numRuns: 300 });
  });

  it("finds a place for whatever was cut from it", () => {
    // A shelf cut in two, and each half again, anywhere: pieces with their clearances that must fit.
    const cut = fc.double({ min: 0.25, max: 0.75, noNaN: true });
    fc.assert(fc.property(cut, cut, cut, (x, left, right) => {
      const room = 600 - 80 + 50;
      const [w1, w2] = [x * room - 50, (1 - x) * room - 50];
      const pieces = [box("a", w1, left * room - 50), box("b", w1, (1 - left) * room - 50), box("c", w2, right * room - 50), box("d", w2, (1 - right) * room - 50)];
      expect(packShelf(SHELF, pieces).places).toHaveLength(4);
    }), { numRuns: 100 });
  });

  it("finds the pinwheel, which no row of pieces makes", () => {
    // Four of 300 × 170 around a hole: 300 + 50 + 170 = 520 each way.
    const four = ["a", "b", "c", "d"].map((id) => box(id, 300, 170));
    expect(packShelf(SHELF, four).places).toHaveLength(4);
    expect(packShelf({ ...SHELF, widthMm: 599 }, four)).toEqual({ places: undefined, exact: true });
  });

  it("turns a piece where that helps, and says that it did", () => {
    expect(packShelf({ ...SHELF, widthMm: 300 }, [box("a", 400, 200)]).places).toMatchObject([{ turned: true, widthMm: 200 }]);
  });

  it("stands two discs across corners, and says exactly when they do not fit", () => {
    // Discs of 240 in a free square of 480: centres 240·√2 = 339 apart, 99 between them; as squares they would need 530.
    const shelf = { ...SHELF, widthMm: 560, depthMm: 560 };
    const { places } = packShelf(shelf, [disc("a", 240), disc("b", 240)]);
    expect(places).toHaveLength(2);
    expect(packShelf(shelf, [disc("a", 271), disc("b", 271)])).toEqual({ places: undefined, exact: true });
    expect(packShelf(shelf, [disc("a", 270), disc("b", 240), disc("c", 240)])).toEqual({ places: undefined, exact: false });
  });

  it("does not depend on the order", () => {
    fc.assert(fc.property(set, (footprints) => {
      expect(packShelf(SHELF, [...footprints].reverse())).toEqual(packShelf(SHELF, footprints));
    }), { numRuns: 60 });
  });
});
