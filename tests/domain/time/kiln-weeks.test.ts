import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { kilnWeeksBetween, kilnWeeksLater, kilnWeeksOfHours, sameWallTimeWeeksLater, timeHeld } from "@/lib/domain/time/kiln-weeks";

const zone = "Europe/Copenhagen";
const at = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant();
const wall = (instant: Temporal.Instant) => instant.toZonedDateTimeISO(zone).toPlainDateTime().toString({ smallestUnit: "minute" });

test("a kiln-week is 168 elapsed hours", () => {
  expect(kilnWeeksBetween(at("2026-12-07T09:30"), at("2026-12-14T09:30"))).toBe(1);
  expect(kilnWeeksOfHours(84)).toBe(0.5);
});

describe("three weeks on the wall from Monday 15 March 2027, 09:30", () => {
  const from = at("2027-03-15T09:30");
  const to = sameWallTimeWeeksLater(from, 3, zone);

  test("end on Monday 5 April at 09:30 and are 503 elapsed hours, for the clocks went forward on 28 March", () => {
    expect(wall(to)).toBe("2027-04-05T09:30");
    expect(timeHeld(from, to, zone)).toEqual({ elapsedHours: 503, localDays: 21, restHours: 0, clockChangeHours: -1 });
    expect(kilnWeeksBetween(from, to)).toBeCloseTo(503 / 168, 12);
  });

  test("three kiln-weeks end an hour later on the wall", () => {
    expect(wall(kilnWeeksLater(from, 3))).toBe("2027-04-05T10:30");
    expect(timeHeld(from, kilnWeeksLater(from, 3), zone)).toEqual({ elapsedHours: 504, localDays: 21, restHours: 1, clockChangeHours: -1 });
  });
});

describe("three weeks on the wall from Monday 18 October 2027, 09:30", () => {
  const from = at("2027-10-18T09:30");

  test("are 505 elapsed hours, for the clocks went back on 31 October", () => {
    expect(timeHeld(from, sameWallTimeWeeksLater(from, 3, zone), zone)).toEqual({ elapsedHours: 505, localDays: 21, restHours: 0, clockChangeHours: 1 });
  });

  test("three kiln-weeks end an hour earlier on the wall, and only 20 whole days have passed", () => {
    const to = kilnWeeksLater(from, 3);
    expect(wall(to)).toBe("2027-11-08T08:30");
    expect(timeHeld(from, to, zone)).toEqual({ elapsedHours: 504, localDays: 20, restHours: 23, clockChangeHours: 1 });
  });
});

test("without a change of the clocks both counts agree", () => {
  const from = at("2026-12-07T09:30");
  expect(timeHeld(from, kilnWeeksLater(from, 3), zone)).toEqual({ elapsedHours: 504, localDays: 21, restHours: 0, clockChangeHours: 0 });
});
