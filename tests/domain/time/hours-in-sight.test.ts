import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { hoursInSight } from "@/lib/domain/time/hours-in-sight";
import type { WeeklyHours, WorkshopHours } from "@/lib/domain/time/staffed-hours";

const hours = (...weekly: WeeklyHours[]): WorkshopHours => ({ timeZone: "Europe/Copenhagen", weekly, closures: [] });
const day = (weekday: WeeklyHours["weekday"], opensMin: number, closesMin: number): WeeklyHours => ({ weekday, opensMin, closesMin, hands: 2 });
const entry = (from: string, to: string) => ({ start: Temporal.Instant.from(from), end: Temporal.Instant.from(to) });

describe("the hours a calendar day shows", () => {
  it("are the staffed ones, widest over the week, with an hour on either side", () => {
    expect(hoursInSight(hours(day(1, 540, 1080), day(2, 600, 1170)), [])).toEqual({ from: 8, to: 21 });
  });

  it("are eight to eighteen while nobody has entered hours", () => {
    expect(hoursInSight(hours(), [])).toEqual({ from: 8, to: 18 });
  });

  it("stay within the day", () => {
    expect(hoursInSight(hours(day(1, 0, 1440)), [])).toEqual({ from: 0, to: 24 });
  });

  it("widen for an entry of one local day, by the workshop's clock, up to the full hour it ends at", () => {
    const staffed = hours(day(1, 540, 1020));
    expect(hoursInSight(staffed, [entry("2027-01-05T05:30:00Z", "2027-01-05T19:00:00Z")])).toEqual({ from: 6, to: 20 });
    expect(hoursInSight(staffed, [entry("2027-01-05T05:30:00Z", "2027-01-05T19:01:00Z")])).toEqual({ from: 6, to: 21 });
    expect(hoursInSight(staffed, [entry("2027-07-05T05:30:00Z", "2027-07-05T19:00:00Z")])).toEqual({ from: 7, to: 21 });
  });

  it("do not widen for an entry over midnight, which stands above the hours", () => {
    expect(hoursInSight(hours(day(1, 540, 1020)), [entry("2027-01-05T03:00:00Z", "2027-01-09T22:00:00Z")])).toEqual({ from: 8, to: 18 });
  });
});
