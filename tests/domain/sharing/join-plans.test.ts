import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planHistory } from "@/lib/domain/firing/plan-history";
import { planned } from "../firing/casting-builder";
import { joinPlans } from "@/lib/domain/sharing/join-plans";
import { ball, joined, refusals, sharer, SHELF } from "./sharers";

/** Every joined plan is searched and followed for each casting, so few are tried, and none is made smaller. */
const FEW = { numRuns: 4, endOnFailure: true };
const LONG_MS = 60_000;
/** The search for a way down stops within this share of the shortest. */
const SEARCH = 0.015;
const SURE = 1.01;

const over: fc.Arbitrary<Partial<CastingInput>> = fc.record({
  glass: fc.constantFrom("soda-lime-casting", "lead-crystal-30"),
  piece: fc.oneof(
    fc.integer({ min: 40, max: 130 }).map((d): CastingInput["piece"] => ({ shape: "ball", sizeMm: [d] })),
    fc.tuple(fc.integer({ min: 60, max: 200 }), fc.integer({ min: 30, max: 90 })).map(([a, b]): CastingInput["piece"] => ({ shape: "brick", sizeMm: [a, a, b] })),
  ),
  feeder: fc.constant({ diameterMm: 45, lengthMm: 50 }),
  mould: fc.integer({ min: 20, max: 45 }).map((wallMm) => ({ wallMm, plasterSilicaWater: [1, 1, 1] as const })),
});

describe("a joined plan", () => {
  it("is never shorter than any of its castings alone through the same flow, and keeps each one's stress level", () => {
    fc.assert(fc.property(over, over, (one, two) => {
      const both = [sharer("a", one), sharer("b", two)];
      const outcome = joinPlans(both, SHELF);
      // Two that differ much may find no program in common; that is said.
      fc.pre(outcome.ok || outcome.problems[0].code !== "stress-not-kept");
      if (!outcome.ok) throw new Error(outcome.problems[0].message);
      const plan = outcome.value;
      for (const { input, castingId } of both) {
        const alone = planned({ ...input, processC: plan.firing.peakC });
        expect(plan.firing.hours).toBeGreaterThanOrEqual(alone.firing.hours * (1 - SEARCH));
        const through = planHistory(input, plan);
        const own = planHistory(input, planned(input));
        if (!through.ok || !own.ok) throw new Error("not followed");
        const stress = plan.castings?.find((casting) => casting.castingId === castingId)?.stress;
        expect(Math.max(through.value.stress.permanentCentreMPa, through.value.stress.permanentSurfaceMPa)).toBeLessThanOrEqual(SURE * Math.max(0.4, own.value.stress.permanentCentreMPa) + 1e-9);
        expect(through.value.stress.passingMPa).toBeLessThanOrEqual(SURE * Math.max(1.4, own.value.stress.passingMPa) + 1e-9);
        expect(stress?.passingMPa).toBeCloseTo(through.value.stress.passingMPa, 6);
      }
    }), FEW);
  }, LONG_MS);

  it("is the same in whatever order its castings come", () => {
    const three = [sharer("a"), sharer("b", ball(80)), sharer("c", { ...ball(60), glass: "lead-crystal-30" })];
    const [a, b, c] = three;
    if (a === undefined || b === undefined || c === undefined) throw new Error("three");
    expect(joined([c, a, b])).toEqual(joined(three));
    expect(joined([b, c, a])).toEqual(joined(three));
  }, LONG_MS);

  it("adds up: stages make the hours and meet, each says what governs it, masses and lifts are all there", () => {
    const plan = joined([sharer("a"), sharer("b", ball(80))]);
    let fromC = 20;
    for (const { toC, rateKPerH, hours, why } of plan.firing.stages) {
      expect(fromC + rateKPerH * hours).toBeCloseTo(toC, 6);
      expect(why).toMatch(/governs: |^All castings ask for the same: |own pace|closed kiln/);
      expect(why).toMatch(/\d/);
      fromC = toC;
    }
    expect(plan.firing.stages.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(plan.firing.hours, 6);
    expect(plan.shelfKg).toBeCloseTo(plan.castings?.reduce((sum, { shelfKg }) => sum + shelfKg, 0) ?? 0, 9);
    expect(plan.lifts.filter(({ what }) => what === "load").map(({ castingId }) => castingId)).toEqual(["a", "b"]);
    expect(plan.reservation.hours).toBeGreaterThanOrEqual(plan.firing.hours);
  }, LONG_MS);

  it("draws no more and no less than the masses ask for: one firing is cheaper than two", () => {
    const plan = joined([sharer("a"), sharer("b", ball(80))]);
    const alone = plan.castings?.map(({ alone: { kWh } }) => kWh) ?? [];
    expect(plan.energy.kWh).toBeGreaterThan(Math.max(...alone));
    expect(plan.energy.kWh).toBeLessThan(alone.reduce((sum, kWh) => sum + kWh, 0));
  }, LONG_MS);
});

describe("castings that cannot be fired together", () => {
  it("are refused where no soak does for both, with the glass, its range and what would be allowed", () => {
    const [problem] = refusals([sharer("a", { glass: "soda-lime-float" }), sharer("b", { glass: "lead-crystal-45", feeder: { diameterMm: 40, lengthMm: 40 } })]);
    expect(problem).toMatchObject({ code: "no-common-soak", field: "glass" });
    expect(problem?.message).toMatch(/^Casting b \(.*lead.*\) soaks at \d+ to \d+ °C and Casting a \(.*\) at \d+ to \d+ °C: no temperature does for both\. With Casting b goes only a glass that soaks somewhere between \d+ and \d+ °C\.$/i);
  });

  it("are refused where a member's own hottest temperature is colder than the other's glass flows", () => {
    const [problem] = refusals([sharer("a", { ...ball(60), glass: "lead-crystal-45", processC: 740, feeder: { diameterMm: 60, lengthMm: 30 } }), sharer("b")]);
    expect(problem).toMatchObject({ code: "no-common-flow", field: "glass" });
    expect(problem?.message).toContain("740 °C");
  });

  it("are refused where a lime glass would wait too long among crystals", () => {
    const [problem] = refusals([sharer("a", { ...ball(40), mould: { wallMm: 20, plasterSilicaWater: [1, 1, 1] } }), sharer("b", { feeder: { diameterMm: 22, lengthMm: 60 } })]);
    expect(problem).toMatchObject({ code: "would-crystallise" });
    expect(problem?.message).toMatch(/Casting a: .* held at 850 °C for .* Allowed beside it/);
  });

  it("are refused when one of them cannot be planned at all, by name", () => {
    const [problem] = refusals([sharer("a"), sharer("b", { processC: 950 })]);
    expect(problem?.code).toBe("too-hot-for-mould");
    expect(problem?.message.startsWith("Casting b: ")).toBe(true);
  });

  it("are none when there is but one", () => {
    expect(refusals([sharer("a")])).toMatchObject([{ code: "too-few" }]);
  });
});

describe("the shelf under a joined load", () => {
  const small = { insideMm: [530, 330, 600], wallClearanceMm: 40, headroomMm: 50, shelfLoadKg: 300 } as const;
  // A ball of 90 mm in a wall of 40 mm stands on 170 mm: two need 170 + 50 + 170 = 390 mm, and 40 mm on each side.
  const two = [sharer("a", ball(90)), sharer("b", ball(90))];
  it("takes two side by side where they just fit", () => {
    expect(joined(two, { ...small, insideMm: [470, 250, 600] }).loadMm).toMatchObject({ width: expect.closeTo(390, 6) as number, depth: expect.closeTo(170, 6) as number });
  });
  it("refuses a millimetre less, and says so", () => {
    expect(refusals(two, { ...small, insideMm: [469, 250, 600] })).toMatchObject([{ code: "no-room" }]);
    expect(refusals(two, { ...small, insideMm: [470, 249, 600] })).toMatchObject([{ code: "no-room" }]);
  });
  it("holds the shelf's load at, below and above its limit", () => {
    const kg = joined(two, small).shelfKg;
    expect(refusals(two, { ...small, shelfLoadKg: kg })).toEqual([]);
    expect(refusals(two, { ...small, shelfLoadKg: kg + 0.1 })).toEqual([]);
    expect(refusals(two, { ...small, shelfLoadKg: kg - 0.1 })).toMatchObject([{ code: "too-heavy", allowed: `up to ${kg - 0.1} kg` }]);
  });
  it("holds the headroom over the tallest pot", () => {
    const height = joined(two, small).loadMm.height;
    expect(refusals(two, { ...small, insideMm: [530, 330, height + 50] })).toEqual([]);
    expect(refusals(two, { ...small, insideMm: [530, 330, height + 49] })).toMatchObject([{ code: "too-tall" }]);
  });
});
