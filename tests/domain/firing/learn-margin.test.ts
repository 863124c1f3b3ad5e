import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inverseOfDistribution, learnMargin, type FiringRecord, type LearnedMargin } from "@/lib/domain/firing/learn-margin";

/** A firing of 200 h with a usual margin of 10 h that needed so many usual margins. */
const needed = (margins: number): FiringRecord => ({ programHours: 200, usualMarginHours: 10, actualHours: 200 + 10 * margins });

function learned(margins: readonly number[]): LearnedMargin {
  const lesson = learnMargin(margins.map(needed));
  if (!lesson.ok || lesson.value.margin === null) throw new Error("nothing learned");
  return lesson.value.margin;
}
const factor = (margins: readonly number[]): number => learned(margins).factor;

describe("the quantile", () => {
  // R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 361–365:
  // definition 1 is the inverse of the empirical distribution function, x(j) if np = j, x(j + 1) if j < np < j + 1.
  it.each([
    [[15, 20, 35, 40, 50], 5, 100, 15],
    [[15, 20, 35, 40, 50], 30, 100, 20],
    [[15, 20, 35, 40, 50], 40, 100, 20],
    [[15, 20, 35, 40, 50], 50, 100, 35],
    [[15, 20, 35, 40, 50], 100, 100, 50],
    [[10, 9, 8, 7, 6, 5, 4, 3, 2, 1], 9, 10, 9],
    [[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11], 9, 10, 10],
  ])("of %j at %d of %d is the record %d", (values, share, of, expected) => {
    expect(inverseOfDistribution(values, share, of)).toBe(expected);
  });

  it("is the smallest record with at least that share of all at or below it", () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 60 }), fc.integer({ min: 1, max: 20 }), (values, share) => {
      const quantile = inverseOfDistribution(values, share, 20);
      const below = (bound: number) => values.filter((value) => value <= bound).length;
      expect(values).toContain(quantile);
      expect(20 * below(quantile)).toBeGreaterThanOrEqual(share * values.length);
      expect(20 * below(quantile - 1)).toBeLessThan(share * values.length);
    }));
  });
});

describe("a margin learned from a kiln's firings", () => {
  it.each([
    [0, "No firing of this kiln has been opened yet: the usual margin is used."],
    [1, "One firing of this kiln has been opened, and the margin is learned from 3: the usual margin is used."],
    [2, "Two firings of this kiln have been opened, and the margin is learned from 3: the usual margin is used."],
  ])("is the usual one after %d firings", (count, why) => {
    expect(learnMargin(Array.from({ length: count }, () => needed(4)))).toEqual({ ok: true, value: { margin: null, why } });
  });

  it("is learned from the third on, and says from how many", () => {
    expect(learnMargin([needed(1), needed(1), needed(1)])).toMatchObject({ ok: true, value: { margin: { factor: 1, firings: 3, sufficed: 3 } } });
    expect(learnMargin([0.4, 0.6, 0.7, 0.9, 1, 1, 4].map(needed))).toMatchObject({
      ok: true, value: { why: "Learned from 7 firings of this kiln: in 6 of 7 this would have sufficed." },
    });
  });

  it("grows when firings needed more, and shrinks only when many needed less", () => {
    expect(factor([1.8, 1.9, 2])).toBe(1.9);
    expect(factor([0.2, 0.2, 0.2])).toBe(1);
    expect(factor(Array.from({ length: 40 }, () => 0.2))).toBeLessThan(0.7);
  });

  it("is not moved by how wild one wild firing was", () => {
    for (const others of [[1, 1], [0.5, 0.8, 0.9, 1], [1.2, 1.3, 1.4, 1.5, 1.6, 1.7]]) {
      expect(factor([...others, 900])).toBe(factor([...others, 2]));
      expect(factor([...others, 900])).toBeLessThanOrEqual(1.7);
    }
  });

  it("counts no firing for more than three usual margins, while the middle one is usual", () => {
    expect(factor([1, 2.9, 2.9])).toBe(2.9);
    expect(factor([1, 40, 50])).toBe(3);
  });

  it("comes to what suffices in nine of ten, with many firings", () => {
    const even = Array.from({ length: 1000 }, (_, at) => (2 * (at + 1)) / 1000);
    expect(factor(even)).toBeCloseTo(1.8, 1);
    expect(learned(even).sufficed / 1000).toBeCloseTo(0.9, 2);
  });

  it("takes a firing opened before its program was over as one that needed nothing", () => {
    const early: FiringRecord = { programHours: 200, usualMarginHours: 10, actualHours: 20 };
    const many = learnMargin(Array.from({ length: 500 }, () => early));
    expect(many).toMatchObject({ ok: true, value: { margin: { factor: 0, sufficed: 500 } } });
  });

  it.each([
    ["programHours", NaN], ["programHours", 0.24], ["programHours", 10_001], ["usualMarginHours", NaN], ["usualMarginHours", 0], ["usualMarginHours", Infinity],
    ["actualHours", NaN], ["actualHours", -0.1], ["actualHours", 10_001],
  ])("refuses %s of %d, however few there are", (field, value) => {
    const refused = learnMargin([{ ...needed(1), [field]: value }]);
    expect(refused).toMatchObject({ ok: false, problems: [{ code: "out-of-range", field: `records.0.${field}` }] });
  });

  it.each([["programHours", 0.25], ["programHours", 10_000], ["usualMarginHours", 0.25], ["actualHours", 0], ["actualHours", 10_000]])("takes %s of %d", (field, value) => {
    expect(learnMargin([{ ...needed(1), [field]: value }]).ok).toBe(true);
  });
});

describe("whatever the firings", () => {
  const record = fc.record({
    programHours: fc.double({ min: 24, max: 900, noNaN: true }),
    usualMarginHours: fc.double({ min: 3, max: 40, noNaN: true }),
    actualHours: fc.double({ min: 0, max: 2000, noNaN: true }),
  });
  const records = fc.array(record, { minLength: 3, maxLength: 40 });
  const of = (some: readonly FiringRecord[]): LearnedMargin => {
    const lesson = learnMargin(some);
    if (!lesson.ok || lesson.value.margin === null) throw new Error("nothing learned");
    return lesson.value.margin;
  };

  it("one more that outlasted the margin never shrinks it, however often", () => {
    fc.assert(fc.property(records, fc.double({ min: 0, max: 60, noNaN: true }), fc.integer({ min: 1, max: 12 }), (some, moreHours, times) => {
      const before = of(some).factor;
      const overrun = { programHours: 200, usualMarginHours: 10, actualHours: 200 + 10 * before + moreHours + 1e-6 };
      expect(of([...some, ...Array.from({ length: times }, () => overrun)]).factor).toBeGreaterThanOrEqual(before);
    }), { numRuns: 400 });
  });

  it("one that takes longer never shrinks it", () => {
    fc.assert(fc.property(records, fc.nat(), fc.double({ min: 0, max: 500, noNaN: true }), (some, which, longer) => {
      const at = which % some.length;
      const after = some.map((one, index) => (index === at ? { ...one, actualHours: one.actualHours + longer } : one));
      expect(of(after).factor).toBeGreaterThanOrEqual(of(some).factor);
    }), { numRuns: 400 });
  });

  it("their order does not matter", () => {
    fc.assert(fc.property(records.chain((some) => fc.tuple(fc.constant(some), fc.shuffledSubarray(some, { minLength: some.length }))), ([some, shuffled]) => {
      expect(of(shuffled)).toEqual(of(some));
    }));
  });

  it("it is never negative, and counts no more firings than there are", () => {
    fc.assert(fc.property(records, (some) => {
      const { factor: learnedFactor, firings, sufficed } = of(some);
      expect(learnedFactor).toBeGreaterThanOrEqual(0);
      expect(firings).toBe(some.length);
      expect(sufficed).toBeGreaterThanOrEqual(0);
      expect(sufficed).toBeLessThanOrEqual(firings);
    }));
  });
});
