import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { adjustedFrequency, frequencyMultiplier, type LiftingDuration } from "@/lib/domain/lifting/niosh-frequency";

function multiplier(perMinute: number, duration: LiftingDuration, originCm: number): number | "refused" {
  const outcome = frequencyMultiplier(perMinute, duration, originCm);
  return outcome.ok ? outcome.value : "refused";
}

// NIOSH publication 94-110, Table 5, read from a copy of it.
describe("the frequency multiplier", () => {
  it.each([
    [0.2, "short", 50, 1], [0.2, "moderate", 50, 0.95], [0.2, "long", 50, 0.85],
    [3, "short", 56, 0.88], [9, "long", 75, 0.15], [9, "long", 74, "refused"],
    [10, "long", 75, 0.13], [11, "long", 80, "refused"],
    [12, "short", 74, 0.37], [13, "short", 74, "refused"], [15, "short", 75, 0.28],
    [12, "moderate", 75, 0.21], [13, "moderate", 75, "refused"], [10, "moderate", 20, 0.26], [11, "moderate", 20, "refused"],
  ] as const)("%s a minute, %s, from %s cm: %s", (perMinute, duration, originCm, expected) => {
    expect(multiplier(perMinute, duration, originCm)).toBe(expected);
  });

  it("treats anything rarer than 0.2 a minute as 0.2", () => {
    expect(multiplier(0, "long", 50)).toBe(0.85);
  });

  it("is linear between rows", () => {
    expect(multiplier(2.5, "short", 50)).toBeCloseTo(0.895, 9);
  });

  it("refuses instead of fading towards a row that is zero", () => {
    expect(multiplier(8.01, "long", 50)).toBe("refused");
    expect(multiplier(15.01, "short", 80)).toBe("refused");
  });

  it("refuses a frequency that is negative or not a number", () => {
    expect(multiplier(-1, "short", 50)).toBe("refused");
    expect(multiplier(NaN, "short", 50)).toBe("refused");
  });

  it("never grows with frequency or duration", () => {
    const rate = fc.double({ min: 0, max: 8, noNaN: true });
    fc.assert(
      fc.property(rate, rate, fc.constantFrom(20, 75, 120), (a, b, originCm) => {
        const [slow, fast] = a < b ? [a, b] : [b, a];
        const at = (perMinute: number, duration: LiftingDuration) => Number(multiplier(perMinute, duration, originCm));
        expect(at(fast, "short")).toBeLessThanOrEqual(at(slow, "short") + 1e-12);
        expect(at(slow, "moderate")).toBeLessThanOrEqual(at(slow, "short"));
        expect(at(slow, "long")).toBeLessThanOrEqual(at(slow, "moderate"));
      }),
    );
  });
});

describe("the special frequency adjustment", () => {
  it("gives the published 5.33 for 10 a minute during 8 of 15 minutes (NIOSH 94-110)", () => {
    const outcome = adjustedFrequency(10, 8);
    expect(outcome.ok && outcome.value).toBeCloseTo(5.33, 2);
  });

  it.each([[15, 15, true], [15.1, 5, false], [10, 15.1, false], [-1, 5, false], [NaN, 5, false], [5, NaN, false]])(
    "%s a minute during %s minutes: answered %s",
    (perMinute, minutes, answered) => {
      expect(adjustedFrequency(perMinute, minutes).ok).toBe(answered);
    },
  );
});
