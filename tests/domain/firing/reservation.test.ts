import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastingPlan, Margin } from "@/lib/domain/firing/casting-plan";
import { BRICK, KILN, planned, problemsOf, slab } from "@/tests/domain/firing/casting-builder";

function marginOf({ reservation }: CastingPlan): Margin {
  if (reservation.margin === undefined) throw new Error("no margin");
  return reservation.margin;
}
const item = (plan: CastingPlan, what: string) => marginOf(plan).items.find((one) => one.what === what);
const learned = (factor: number) => planned({ ...BRICK, kiln: { ...KILN, margin: { factor, firings: 7, sufficed: 6 } } });

describe("the margin of a reservation", () => {
  it("is itemised: each with hours, one sentence and the mark of its source", () => {
    const { items } = marginOf(planned({ ...BRICK, kiln: { ...KILN, minRateKPerH: 5 } }));
    expect(items.map(({ what }) => what)).toEqual([
      "kiln behind its program", "drying on", "controller steps", "a look or a short power cut", "waiting for the core", "opening to unload", "up to a whole hour",
    ]);
    for (const { hours, why, source } of items) {
      expect(hours).toBeGreaterThan(0);
      expect(why).toMatch(/^[A-Z].*\.$/);
      expect(source).toMatch(/^(common practice, no source|from memory|worked out)$/);
    }
  });

  it("adds up to what is held beyond the program, in whole hours", () => {
    fc.assert(fc.property(fc.double({ min: 20, max: 250, noNaN: true }), fc.integer({ min: 15, max: 80 }), fc.boolean(), fc.option(fc.double({ min: 0, max: 9, noNaN: true })), (t, wallMm, driedBeforeLoading, factor) => {
      const kiln = factor === null ? KILN : { ...KILN, margin: { factor, firings: 5, sufficed: 4 } };
      const plan = planned({ ...BRICK, piece: { shape: "brick", sizeMm: [t * 1.5, t * 1.2, t] }, feeder: { diameterMm: 40, lengthMm: 40 }, mould: { wallMm, plasterSilicaWater: [1, 1, 1], driedBeforeLoading }, kiln: { ...kiln, powerKw: 60 } });
      const { hours, items } = marginOf(plan);
      expect(Number.isInteger(plan.reservation.hours)).toBe(true);
      expect(plan.reservation.hours - plan.firing.hours).toBeCloseTo(hours, 6);
      expect(items.reduce((sum, one) => sum + one.hours, 0)).toBeCloseTo(hours, 6);
      expect(plan.reservation.marginHours).toBe(hours);
      expect(hours).toBeGreaterThan(-1e-5);
    }), { numRuns: 15 });
  });

  it("allows a quarter of a wet wall's drying for a mould, wet or dried, and none for bare glass", () => {
    const dried = planned({ ...BRICK, mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1], driedBeforeLoading: true } });
    expect(item(planned(BRICK), "drying on")).toMatchObject({ hours: 3, why: expect.stringContaining("a wet mould may steam for longer") });
    expect(item(dried, "drying on")).toMatchObject({ hours: 3, why: expect.stringContaining("may be damp inside") });
    expect(item(planned(slab(25)), "drying on")).toBeUndefined();
  });

  it("names controller steps only where a rate is below the controller's slowest", () => {
    const steps = item(planned({ ...BRICK, kiln: { ...KILN, minRateKPerH: 5 } }), "controller steps");
    const [, count = "0"] = /become (\d+) steps/.exec(steps?.why ?? "") ?? [];
    expect(Number(count)).toBeGreaterThan(0);
    expect(steps?.hours).toBeCloseTo((2 * Number(count)) / 60, 9);
    expect(item(planned({ ...BRICK, kiln: { ...KILN, minRateKPerH: 0.1 } }), "controller steps")).toBeUndefined();
  });

  it("waits for the core for half of what the program plans for opening", () => {
    const plan = planned(BRICK);
    const open = plan.firing.stages.find(({ stage }) => stage === "Open");
    expect(item(plan, "waiting for the core")?.hours).toBeCloseTo((open?.hours ?? 0) / 2, 9);
  });
});

describe("a margin from the kiln's own firings", () => {
  it("is so many usual margins, up to a whole hour, with one item more that says from how many", () => {
    const usual = marginOf(planned(BRICK));
    const plan = learned(1.5);
    expect(plan.reservation.hours).toBe(Math.ceil(plan.firing.hours + 1.5 * usual.usualHours));
    expect(marginOf(plan).learnedFrom).toEqual({ factor: 1.5, firings: 7, sufficed: 6 });
    expect(marginOf(plan).items.at(-1)?.why).toBe("Learned from 7 firings of this kiln: in 6 of 7 this would have sufficed.");
  });

  it("is the usual one at one, less below and more above", () => {
    const usual = planned(BRICK).reservation.hours;
    expect(learned(1).reservation.hours).toBe(usual);
    expect(learned(0.8).reservation.hours).toBeLessThan(usual);
    expect(learned(1.2).reservation.hours).toBeGreaterThan(usual);
  });

  it("never holds the kiln for less than the program", () => {
    const plan = learned(0);
    expect(plan.reservation.hours).toBe(Math.ceil(plan.firing.hours));
  });

  it("leaves the program itself alone", () => {
    expect(learned(2).firing).toEqual(planned(BRICK).firing);
  });

  it.each([NaN, -0.01, Infinity])("is refused at %d usual margins", (factor) => {
    expect(problemsOf({ ...BRICK, kiln: { ...KILN, margin: { factor, firings: 7, sufficed: 6 } } })).toMatchObject([{ code: "out-of-range", field: "kiln.margin.factor" }]);
  });
});
