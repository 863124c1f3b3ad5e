import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { contains, containsInstant, hoursOf, intervalOf, overlaps, touching, type Interval } from "@/lib/domain/time/interval";

const t = (minute: number) => Temporal.Instant.fromEpochMilliseconds(1_800_000_000_000 + minute * 60_000);
const span = (start: number, end: number): Interval => ({ start: t(start), end: t(end) });

test("an end before its start is refused, an equal one is an empty interval", () => {
  expect(intervalOf(t(5), t(5)).ok).toBe(true);
  const refused = intervalOf(t(5), t(4));
  expect(refused.ok).toBe(false);
  expect(refused.ok || refused.problems[0]).toMatchObject({ code: "end-before-start", field: "end", allowed: `${t(5).toString()} or later` });
});

describe("half-open", () => {
  test("touching intervals do not overlap; a minute more and they do", () => {
    expect(touching(span(0, 10), span(10, 20))).toBe(true);
    expect(overlaps(span(0, 10), span(10, 20))).toBe(false);
    expect(overlaps(span(0, 11), span(10, 20))).toBe(true);
    expect(touching(span(0, 11), span(10, 20))).toBe(false);
  });

  test("an empty interval overlaps nothing, not even what surrounds it", () => {
    expect(overlaps(span(5, 5), span(0, 10))).toBe(false);
  });

  test("the start belongs to an interval, the end does not", () => {
    expect([0, 9, 10].map((minute) => containsInstant(span(0, 10), t(minute)))).toEqual([true, true, false]);
  });

  test("an interval contains itself and nothing that sticks out", () => {
    expect(contains(span(0, 10), span(0, 10))).toBe(true);
    expect(contains(span(0, 10), span(1, 9))).toBe(true);
    expect(contains(span(0, 10), span(0, 11))).toBe(false);
    expect(contains(span(1, 10), span(0, 10))).toBe(false);
  });
});

test("two intervals overlap exactly when some minute belongs to both", () => {
  const minute = fc.integer({ min: 0, max: 12 });
  fc.assert(
    fc.property(minute, minute, minute, minute, (a, b, c, d) => {
      const one = span(Math.min(a, b), Math.max(a, b));
      const other = span(Math.min(c, d), Math.max(c, d));
      const shared = Array.from({ length: 12 }, (_, i) => t(i)).some((at) => containsInstant(one, at) && containsInstant(other, at));
      expect(overlaps(one, other)).toBe(shared);
      expect(overlaps(other, one)).toBe(shared);
    }),
  );
});

test("hours are elapsed hours", () => {
  expect(hoursOf(span(0, 90))).toBe(1.5);
});
