import { describe, expect, it } from "vitest";
import { calendarHref, type CalendarPlace } from "@/lib/contracts/calendar";
import { readCalendarPlace } from "@/lib/contracts/read-calendar-place";

describe("the calendar's address", () => {
  it.each<[string, CalendarPlace]>([
    ["/calendar", { view: "month", of: "all", day: null }],
    ["/calendar?of=mine&view=week&day=2027-03-14", { view: "week", of: "mine", day: "2027-03-14" }],
    ["/calendar?view=day", { view: "day", of: "all", day: null }],
  ])("%s is written and read alike", (href, place) => {
    expect(calendarHref(place)).toBe(href);
    expect(readCalendarPlace(Object.fromEntries(new URL(href, "http://localhost").searchParams))).toEqual(place);
  });

  it("is read as if left out where it makes no sense", () => {
    const nothing = { view: "month", of: "all", day: null };
    expect(readCalendarPlace({ view: "year", of: "yours", day: "2027-02-30" })).toEqual(nothing);
    expect(readCalendarPlace({ view: ["week", "day"], day: ["2027-03-14"], other: "x" })).toEqual(nothing);
  });
});
