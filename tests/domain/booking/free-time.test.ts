import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstOverlap, nextFree, nextWithin, peakWithin, sortedSpans, stepsOf } from "@/lib/domain/booking/free-time";

const spans = fc.array(fc.record({ start: fc.integer({ min: 0, max: 60 }), end: fc.integer({ min: 0, max: 60 }), amount: fc.integer({ min: 1, max: 4 }) }), { maxLength: 8 });

describe("sorted spans", () => {
  test("merge what touches or overlaps and drop what is empty", () => {
    expect(sortedSpans([{ start: 5, end: 9 }, { start: 1, end: 3 }, { start: 3, end: 4 }, { start: 8, end: 8 }])).toEqual([{ start: 1, end: 4 }, { start: 5, end: 9 }]);
  });

  test("a gap exactly as long as needed is taken, one a unit shorter is not", () => {
    const busy = sortedSpans([{ start: 0, end: 10 }, { start: 15, end: 20 }]);
    expect([nextFree(busy, 3, 5), nextFree(busy, 3, 6), nextFree(busy, 20, 100)]).toEqual([10, 20, 20]);
    expect([firstOverlap(busy, 10, 15), firstOverlap(busy, 10, 16)]).toEqual([undefined, { start: 15, end: 20 }]);
  });

  test("the next free start is free, and every start before it is not", () => {
    fc.assert(
      fc.property(spans, fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 20 }), (drawn, t, length) => {
        const free = (start: number) => drawn.every((span) => span.start >= span.end || span.end <= start || start + length <= span.start);
        let plain = t;
        while (!free(plain)) plain++;
        expect(nextFree(sortedSpans(drawn), t, length)).toBe(plain);
      }),
    );
  });
});

describe("amounts that add up", () => {
  test("the next start within a limit agrees with trying every one", () => {
    fc.assert(
      fc.property(spans, fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 20 }), fc.integer({ min: 4, max: 9 }), (drawn, t, length, limit) => {
        const amountAt = (at: number) => drawn.reduce((sum, span) => (span.start <= at && at < span.end ? sum + span.amount : sum), 0);
        const peak = (start: number) => Math.max(...Array.from({ length }, (_, i) => amountAt(start + i)));
        let plain = t;
        while (peak(plain) + 4 > limit) plain++;
        expect(nextWithin(stepsOf(drawn), t, length, 4, limit)).toBe(plain);
        expect(peakWithin(stepsOf(drawn), t, t + length)).toBe(peak(t));
      }),
    );
  });

  test("decimal kilowatts that add up to the limit are not above it", () => {
    const steps = stepsOf([{ start: 0, end: 10, amount: 0.1 }, { start: 0, end: 10, amount: 0.2 }]);
    expect(nextWithin(steps, 0, 5, 0.3, 0.6)).toBe(0);
    expect(nextWithin(steps, 0, 5, 0.31, 0.6)).toBe(10);
  });
});
