import { Temporal } from "temporal-polyfill";
import { expect, test } from "vitest";
import { ceilToGrid, isOnGrid } from "@/lib/domain/time/grid";
import { showClock, showDate, showHours, showInterval, showKilnWeeks, showTime, showTimeWithYear } from "@/lib/domain/time/show-time";

const zone = "Europe/Copenhagen";
const at = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant();

test("an instant is shown on the workshop's clock, whatever the clocks did", () => {
  expect(showTime(at("2026-12-07T09:30"), zone)).toBe("Mon 7 Dec, 09:30");
  expect(showTimeWithYear(at("2027-09-01T00:00"), zone)).toBe("Wed 1 Sep 2027, 00:00");
  expect(showClock(Temporal.Instant.from("2027-03-28T00:59:00Z"), zone)).toBe("01:59");
  expect(showClock(Temporal.Instant.from("2027-03-28T01:00:00Z"), zone)).toBe("03:00");
  expect(showDate(Temporal.PlainDate.from("2027-02-28"))).toBe("Sun 28 Feb");
});

test("an interval repeats the day only when it must", () => {
  expect(showInterval({ start: at("2026-12-07T09:30"), end: at("2026-12-07T10:15") }, zone)).toBe("Mon 7 Dec, 09:30 to 10:15");
  expect(showInterval({ start: at("2026-12-07T09:30"), end: at("2026-12-08T10:15") }, zone)).toBe("Mon 7 Dec, 09:30 to Tue 8 Dec, 10:15");
});

test("hours in the two largest units that say enough", () => {
  expect([0, 0.5, 1, 2.5, 23.99, 24, 25, 47.6, 167, 168, 192, 17 * 24, 17 * 24 + 11].map(showHours)).toEqual([
    "0 minutes",
    "30 minutes",
    "1 hour",
    "2 hours 30 minutes",
    "23 hours 59 minutes",
    "1 day",
    "1 day 1 hour",
    "2 days",
    "6 days 23 hours",
    "1 week",
    "1 week 1 day",
    "2 weeks 3 days",
    "2 weeks 3 days",
  ]);
});

test("hours as kiln-weeks with one decimal", () => {
  expect([168, 84, 403.2, 167].map(showKilnWeeks)).toEqual(["1 kiln-week", "0.5 kiln-weeks", "2.4 kiln-weeks", "1 kiln-week"]);
});

test("the grid is every quarter hour of the local clock, also where it stands three quarters of an hour off", () => {
  const on = (text: string, timeZone: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(timeZone).epochMilliseconds;
  for (const timeZone of [zone, "Asia/Kathmandu", "Australia/Lord_Howe"]) {
    expect(ceilToGrid(on("2027-03-01T10:00:00", timeZone), timeZone)).toBe(on("2027-03-01T10:00:00", timeZone));
    expect(ceilToGrid(on("2027-03-01T10:00:00.001", timeZone), timeZone)).toBe(on("2027-03-01T10:15:00", timeZone));
    expect(isOnGrid(on("2027-03-01T10:14:59.999", timeZone), timeZone)).toBe(false);
  }
});
