import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import {
  assessLift, asymmetryMultiplier, compositeIndex, distanceMultiplier, horizontalMultiplier, verticalMultiplier,
  type NioshLift, type NioshResult,
} from "@/lib/domain/lifting/niosh";

const CM_PER_INCH = 2.54;
const KG_PER_LB = 0.45359237;

function build(overrides: Partial<NioshLift> = {}): NioshLift {
  return {
    loadKg: 12,
    origin: { horizontalCm: 40, verticalCm: 75, asymmetryDeg: 0 },
    destination: { horizontalCm: 40, verticalCm: 75, asymmetryDeg: 0 },
    liftsPerMinute: 0.1, duration: "short", coupling: "poor",
    ...overrides,
  };
}

function assessed(lift: NioshLift): NioshResult {
  const outcome = assessLift(lift);
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
}

// NIOSH publication 94-110, Tables 1 to 4, metric columns, from memory; printed to two decimals.
describe("the multipliers against the printed tables", () => {
  it.each([[20, 1], [25, 1], [28, 0.89], [32, 0.78], [40, 0.63], [50, 0.5], [58, 0.43], [63, 0.4]])("H %s cm: %s", (cm, printed) => {
    expect(Math.abs(horizontalMultiplier(cm) - printed)).toBeLessThan(0.0051);
  });
  it.each([[0, 0.78], [30, 0.87], [50, 0.93], [70, 0.99], [75, 1], [100, 0.93], [140, 0.81], [175, 0.7]])("V %s cm: %s", (cm, printed) => {
    expect(Math.abs(verticalMultiplier(cm) - printed)).toBeLessThan(0.0051);
  });
  it.each([[10, 1], [25, 1], [40, 0.93], [55, 0.9], [70, 0.88], [100, 0.87], [175, 0.85]])("D %s cm: %s", (cm, printed) => {
    expect(Math.abs(distanceMultiplier(cm) - printed)).toBeLessThan(0.0051);
  });
  it.each([[0, 1], [30, 0.9], [45, 0.86], [90, 0.71], [135, 0.57]])("A %s degrees: %s", (deg, printed) => {
    expect(Math.abs(asymmetryMultiplier(deg) - printed)).toBeLessThan(0.0051);
  });
});

/*
 * NIOSH publication 94-110, worked examples 1 (punch press stock; inputs from memory) and 4 (package
 * inspection; multipliers and limits read from a copy). They are printed in pounds and
 * inches with multipliers of two decimals. The metric constants run beside those, they are no
 * conversion: 25/H, 0.003 and 23 kg stand for 10/H, 0.0075 and 51 lb. At 23 in the printed 0.44 is
 * 0.428 here, at 64 in the printed 0.75 is 0.737. Each such step makes the metric limit the lower,
 * never the higher one; together up to 6 % on the limit and 0.22 on the index.
 */
describe("the published worked examples", () => {
  type Printed = { limitsLb: readonly [number, number]; indices: readonly [number, number] };
  const inches = (horizontal: number, vertical: number) => ({
    horizontalCm: horizontal * CM_PER_INCH, verticalCm: vertical * CM_PER_INCH, asymmetryDeg: 0,
  });
  const cases: readonly (readonly [string, NioshLift, Printed])[] = [
    [
      "example 1, 44 lb of stock",
      build({ loadKg: 44 * KG_PER_LB, origin: inches(23, 15), destination: inches(23, 64), liftsPerMinute: 0.1, coupling: "fair" }),
      { limitsLb: [16.3, 14.5], indices: [2.7, 3.0] },
    ],
    [
      "example 4, 26 lb packages",
      build({ loadKg: 26 * KG_PER_LB, origin: inches(10, 22), destination: inches(20, 59), liftsPerMinute: 3, coupling: "fair" }),
      { limitsLb: [34.9, 15.2], indices: [0.7, 1.7] },
    ],
  ];

  it.each(cases)("%s", (_name, lift, printed) => {
    const { origin, destination, index } = assessed(lift);
    expect(origin.limitKg / KG_PER_LB / printed.limitsLb[0]).toBeGreaterThan(0.94);
    expect(origin.limitKg / KG_PER_LB / printed.limitsLb[0]).toBeLessThan(1.005);
    expect(destination.limitKg / KG_PER_LB / printed.limitsLb[1]).toBeGreaterThan(0.94);
    expect(destination.limitKg / KG_PER_LB / printed.limitsLb[1]).toBeLessThan(1.005);
    expect(Math.abs(origin.index - printed.indices[0])).toBeLessThan(0.22);
    expect(Math.abs(destination.index - printed.indices[1])).toBeLessThan(0.22);
    expect(index).toBe(Math.max(origin.index, destination.index));
  });

  it("example 4 shows each multiplier as printed", () => {
    const { origin, destination } = assessed(cases[1]?.[1] ?? build());
    expect(origin.multipliers.horizontal).toBeCloseTo(1.0, 1);
    expect(origin.multipliers.vertical).toBeCloseTo(0.94, 2);
    expect(origin.multipliers.distance).toBeCloseTo(0.87, 2);
    expect(origin.multipliers.frequency).toBe(0.88);
    expect(origin.multipliers.coupling).toBe(0.95);
    expect(destination.multipliers.horizontal).toBeCloseTo(0.5, 1);
    expect(destination.multipliers.vertical).toBeCloseTo(0.78, 2);
    expect(destination.multipliers.coupling).toBe(1);
  });

  it("three tasks in turn have the composite index 1.8 (from memory)", () => {
    const task = (singleTaskIndex: number, frequencyIndependentIndex: number, liftsPerMinute: number) =>
      ({ singleTaskIndex, frequencyIndependentIndex, liftsPerMinute, originCm: 50 });
    const outcome = compositeIndex([task(1.6, 1.5, 1), task(1.1, 1.0, 2), task(0.6, 0.5, 4)], "short");
    expect(outcome.ok && outcome.value).toBeCloseTo(1.82, 2);
  });
});

describe("the composite index", () => {
  const one = { singleTaskIndex: 1.2, frequencyIndependentIndex: 1, liftsPerMinute: 2, originCm: 50 };
  const two = { singleTaskIndex: 0.8, frequencyIndependentIndex: 0.7, liftsPerMinute: 1, originCm: 50 };

  it("of one task is its own index", () => {
    expect(compositeIndex([one], "short")).toEqual({ ok: true, value: 1.2 });
  });
  it("does not depend on the order in which tasks are named", () => {
    expect(compositeIndex([one, two], "short")).toEqual(compositeIndex([two, one], "short"));
  });
  it("is refused when the tasks together are too frequent", () => {
    expect(compositeIndex([one, { ...two, liftsPerMinute: 14 }], "short").ok).toBe(false);
  });
  it("is refused when an index is not a number", () => {
    expect(compositeIndex([{ ...one, singleTaskIndex: NaN }], "short").ok).toBe(false);
  });
});

describe("the range of the equation", () => {
  const end = { horizontalCm: 40, verticalCm: 75, asymmetryDeg: 0 };
  it.each([
    ["horizontalCm", 63, true], ["horizontalCm", 63.1, false], ["horizontalCm", 0, false], ["horizontalCm", NaN, false],
    ["verticalCm", 0, true], ["verticalCm", -0.1, false], ["verticalCm", 175, true], ["verticalCm", 175.1, false],
    ["asymmetryDeg", 135, true], ["asymmetryDeg", 135.1, false], ["asymmetryDeg", -1, false],
  ] as const)("%s %s: answered %s, at either end", (field, value, answered) => {
    const changed = { ...end, [field]: value };
    expect(assessLift(build({ origin: changed })).ok).toBe(answered);
    expect(assessLift(build({ destination: changed })).ok).toBe(answered);
  });

  it("names every input that is outside, with its value", () => {
    const outcome = assessLift(build({ loadKg: 0, origin: { ...end, horizontalCm: 70 } }));
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems.map((problem) => problem.field)).toEqual(["loadKg", "origin.horizontalCm"]);
    expect(outcome.problems[1]?.message).toContain("70");
  });

  it("says when the lift is one the method does not cover", () => {
    expect(assessed(build({ conditions: ["hot", "cramped"] })).outsideScope).toEqual(["hot", "cramped"]);
    expect(assessed(build()).outsideScope).toEqual([]);
  });

  it("never allows more than 23 kg, and less the further the hands reach", () => {
    const reach = fc.double({ min: 1, max: 63, noNaN: true });
    fc.assert(
      fc.property(reach, reach, (a, b) => {
        const [near, far] = a < b ? [a, b] : [b, a];
        const limit = (horizontalCm: number) => assessed(build({ origin: { ...end, horizontalCm } })).origin.limitKg;
        expect(limit(near)).toBeLessThanOrEqual(23);
        expect(limit(far)).toBeLessThanOrEqual(limit(near) + 1e-12);
      }),
    );
  });

  it("puts a 15 kg mould reached into a kiln from above at an index of about 2", () => {
    const { limitKg, index } = assessed(build({
      loadKg: 15,
      origin: { horizontalCm: 40, verticalCm: 90, asymmetryDeg: 0 },
      destination: { horizontalCm: 60, verticalCm: 60, asymmetryDeg: 0 },
    }));
    expect(limitKg).toBeGreaterThan(7);
    expect(limitKg).toBeLessThan(8.3);
    expect(index).toBeGreaterThan(1.8);
    expect(index).toBeLessThan(2.2);
  });
});
