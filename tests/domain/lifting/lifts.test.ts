import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { liftsOf, USUAL_ZONES, type LiftMasses } from "@/lib/domain/lifting/lifts";

// A brick of 200 x 150 x 100 mm in a 40 mm wall of equal parts plaster, silica and water.
const BRICK: LiftMasses = {
  wetMouldKg: 14.7, waxKg: 2.8, dryMouldKg: 10.7, potKg: 1.5, chargeKg: 8.6,
  firedMouldKg: 9.5, glassKg: 7.5, driedBeforeLoading: true,
};

function lift(masses: LiftMasses, what: "to-steamer" | "from-steamer" | "load" | "unload") {
  const found = liftsOf(masses).find((one) => one.what === what);
  if (found === undefined) throw new Error(`no ${what}`);
  return found;
}

describe("the lifts of one casting", () => {
  it("come in the order they happen", () => {
    expect(liftsOf(BRICK).map((one) => one.what)).toEqual(["to-steamer", "from-steamer", "load", "unload"]);
  });

  it("weigh what is there at that moment", () => {
    expect(lift(BRICK, "to-steamer").kg).toBeCloseTo(17.5, 9);
    expect(lift(BRICK, "from-steamer").kg).toBeCloseTo(14.7 * 1.05, 9);
    expect(lift(BRICK, "load").kg).toBe(10.7);
    expect(lift(BRICK, "unload").kg).toBeCloseTo(17, 9);
  });

  it("load the wet mould when it was not dried, and say so", () => {
    const wet = lift({ ...BRICK, driedBeforeLoading: false }, "load");
    expect(wet).toMatchObject({ kg: 14.7, mouldState: "wet", wet: true });
    expect(wet.why).toContain("still wet, 14.7 kg");
  });

  it("keep pot and glass out of the load, because they follow inside the kiln", () => {
    const heavier = { ...BRICK, potKg: 5, chargeKg: 40 };
    expect(lift(heavier, "load").kg).toBe(lift(BRICK, "load").kg);
    expect(lift(heavier, "load").why).toContain("glass (40 kg)");
  });

  it("mark what is hot and what is wet", () => {
    expect(liftsOf(BRICK).map(({ hot, wet, mouldState }) => ({ hot, wet, mouldState }))).toEqual([
      { hot: false, wet: true, mouldState: "wet" },
      { hot: true, wet: true, mouldState: "wet" },
      { hot: false, wet: false, mouldState: "dry" },
      { hot: true, wet: false, mouldState: "fired" },
    ]);
  });

  it("need one person and no trolley up to the filter figure, and more from there", () => {
    const at = lift({ ...BRICK, dryMouldKg: 10 }, "load");
    const above = lift({ ...BRICK, dryMouldKg: 10.01 }, "load");
    expect(at).toMatchObject({ hands: 1, trolley: false, flag: "none" });
    expect(above).toMatchObject({ hands: 2, trolley: true, flag: "amber" });
  });

  it("need a mechanical aid above what three people cover", () => {
    expect(lift({ ...BRICK, dryMouldKg: 15 }, "load")).toMatchObject({ hands: 3, flag: "amber" });
    const red = lift({ ...BRICK, dryMouldKg: 15.01 }, "load");
    expect(red).toMatchObject({ hands: 2, trolley: true, flag: "red" });
    expect(red.why).toContain("mechanical aid needed");
  });

  it("follow the zone a workshop gives for its own kilns", () => {
    const low = { ...USUAL_ZONES, load: { height: "below-shin", reach: "far" } } as const;
    const load = liftsOf({ ...BRICK, dryMouldKg: 5 }, low).find((one) => one.what === "load");
    expect(load).toMatchObject({ flag: "red", trolley: true });
  });

  it("give a reason with the mass in it, and never call anything safe", () => {
    for (const one of liftsOf(BRICK)) {
      expect(one.why).toContain(`${Math.round(one.kg * 10) / 10} kg`);
      expect(one.why.toLowerCase()).not.toContain("safe");
    }
  });

  it("never get a milder flag from a heavier mould", () => {
    const order = { none: 0, amber: 1, red: 2 };
    const kg = fc.double({ min: 0.1, max: 200, noNaN: true });
    fc.assert(
      fc.property(kg, kg, (one, other) => {
        const [light, heavy] = one < other ? [one, other] : [other, one];
        const flagOf = (dryMouldKg: number) => order[lift({ ...BRICK, dryMouldKg }, "load").flag];
        expect(flagOf(light)).toBeLessThanOrEqual(flagOf(heavy));
      }),
    );
  });
});
