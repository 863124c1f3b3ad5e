import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { daysInSight, heading, stepped } from "@/app/calendar/_components/calendar-days";
import { calendarEvent } from "@/app/calendar/_components/calendar-event";

const day = (iso: string) => Temporal.PlainDate.from(iso);

describe("the days the calendar shows", () => {
  it.each([
    ["2026-12-08", "month", "December 2026"],
    ["2026-12-08", "week", "7–13 December 2026"],
    ["2026-12-02", "week", "30 November – 6 December 2026"],
    ["2027-01-01", "week", "28 December 2026 – 3 January 2027"],
    ["2026-12-13", "week", "7–13 December 2026"],
    ["2026-12-08", "day", "Tuesday 8 December 2026"],
  ] as const)("%s by the %s are headed %s", (iso, view, text) => {
    expect(heading(day(iso), view)).toBe(text);
  });

  it("are whole weeks from Monday to Sunday around the day, whatever the day", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20_000 }), fc.constantFrom("month", "week"), (days, view) => {
        const one = day("2000-01-01").add({ days });
        const { first, last } = daysInSight(one, view);
        expect([first.dayOfWeek, last.dayOfWeek]).toEqual([1, 7]);
        expect(Temporal.PlainDate.compare(first, one) <= 0 && Temporal.PlainDate.compare(one, last) <= 0).toBe(true);
      }),
    );
  });

  it("step by a month that keeps to the month's last day, by a week, by a day", () => {
    expect(stepped(day("2027-01-31"), "month", 1).toString()).toBe("2027-02-28");
    expect(stepped(day("2027-01-03"), "week", -1).toString()).toBe("2026-12-27");
    expect(stepped(day("2026-12-31"), "day", 1).toString()).toBe("2027-01-01");
  });
});

describe("an entry drawn on the calendar", () => {
  const kiln = (from: string, to: string) =>
    calendarEvent({ id: "1", purpose: "kiln", title: "Kiln", place: null, mine: false, href: "/firings/1", startMs: Date.parse(from), endMs: Date.parse(to) }, "Europe/Copenhagen");

  it("stands at the workshop's clock time, across a change of the clocks too", () => {
    const { start, end } = kiln("2027-03-27T08:30:00Z", "2027-03-29T08:30:00Z");
    expect([start, end].map((time) => time.toString().slice(0, 16))).toEqual(["2027-03-27T09:30", "2027-03-29T10:30"]);
  });

  it("that ends at midnight does not take the next day", () => {
    expect(kiln("2027-01-04T08:00:00Z", "2027-01-08T23:00:00Z").end.toString().slice(0, 16)).toBe("2027-01-08T23:59");
    expect(kiln("2027-01-04T08:00:00Z", "2027-01-08T23:01:00Z").end.toString().slice(0, 16)).toBe("2027-01-09T00:01");
  });
});
