import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { tomorrowToTell } from "@/lib/domain/time/tomorrow";

const at = (text: string) => Temporal.Instant.from(text);
const told = (text: string, zone: string, fromHour = 17) => {
  const found = tomorrowToTell(at(text), zone, fromHour);
  return found === undefined ? undefined : [found.day.toString(), found.span.start.toString(), found.span.end.toString()];
};

describe("tomorrow is told of", () => {
  // Copenhagen goes forward at 2027-03-28T01:00Z and back at 2027-10-31T01:00Z (time zone data, Europe/Copenhagen).
  it.each([
    ["an ordinary day", "2027-03-01T16:00:00Z", ["2027-03-02", "2027-03-01T23:00:00Z", "2027-03-02T23:00:00Z"]],
    ["the day before the clocks go forward: 23 hours", "2027-03-27T16:00:00Z", ["2027-03-28", "2027-03-27T23:00:00Z", "2027-03-28T22:00:00Z"]],
    ["the day on which they went forward", "2027-03-28T15:00:00Z", ["2027-03-29", "2027-03-28T22:00:00Z", "2027-03-29T22:00:00Z"]],
    ["the day before they go back: 25 hours", "2027-10-30T15:00:00Z", ["2027-10-31", "2027-10-30T22:00:00Z", "2027-10-31T23:00:00Z"]],
    ["the day on which they went back", "2027-10-31T16:00:00Z", ["2027-11-01", "2027-10-31T23:00:00Z", "2027-11-01T23:00:00Z"]],
  ])("from five in the afternoon of the workshop's own clock on %s", (_day, from, expected) => {
    expect(told(from, "Europe/Copenhagen")).toEqual(expected);
    expect(told(at(from).subtract({ nanoseconds: 1 }).toString(), "Europe/Copenhagen")).toBeUndefined();
  });

  // On 28 March the hour from two to three is left out; on 31 October it comes twice.
  it.each([
    ["a full hour that the clocks leave out: from the next one", 2, "2027-03-28T01:00:00Z", "2027-03-29"],
    ["a full hour that the clocks show twice: from the first, and on through the second", 2, "2027-10-31T00:00:00Z", "2027-11-01"],
    ["the hour behind the one that comes twice: not before the second is over", 3, "2027-10-31T02:00:00Z", "2027-11-01"],
    ["midnight, all day long", 0, "2027-03-27T23:00:00Z", "2027-03-29"],
    ["the last hour of a day that is an hour short", 23, "2027-03-28T21:00:00Z", "2027-03-29"],
  ])("from %s", (_what, hour, from, day) => {
    expect(told(from, "Europe/Copenhagen", hour)?.[0]).toBe(day);
    const before = at(from).subtract({ nanoseconds: 1 }).toString();
    expect(told(before, "Europe/Copenhagen", hour)?.[0]).toBe(hour === 0 ? "2027-03-28" : undefined);
    expect(told(at(from).add({ minutes: 59 }).toString(), "Europe/Copenhagen", hour)?.[0]).toBe(day);
  });

  it("until midnight, and then not until five again", () => {
    expect(told("2027-03-01T22:59:59.999Z", "Europe/Copenhagen")?.[0]).toBe("2027-03-02");
    expect(told("2027-03-01T23:00:00Z", "Europe/Copenhagen")).toBeUndefined();
  });

  it("where a day begins at one in the morning, because midnight is left out", () => {
    // Santiago goes forward at midnight, 2026-09-06T04:00Z (time zone data, America/Santiago).
    expect(told("2026-09-05T21:00:00Z", "America/Santiago")).toEqual(["2026-09-06", "2026-09-06T04:00:00Z", "2026-09-07T03:00:00Z"]);
  });

  it("once for every day, whatever the zone: days follow one another without a gap", () => {
    const zones = fc.constantFrom("Europe/Copenhagen", "America/Santiago", "Asia/Kolkata", "Pacific/Auckland", "Australia/Lord_Howe", "UTC");
    fc.assert(
      fc.property(zones, fc.integer({ min: 0, max: 3650 }), (zone, days) => {
        const evening = Temporal.PlainDate.from("2025-01-01").add({ days }).toZonedDateTime({ timeZone: zone, plainTime: "20:00" });
        const [one, next] = [tomorrowToTell(evening.toInstant(), zone, 17), tomorrowToTell(evening.add({ days: 1 }).toInstant(), zone, 17)];
        expect(one?.span.end.toString()).toBe(next?.span.start.toString());
        expect(one?.day.toString()).toBe(evening.toPlainDate().add({ days: 1 }).toString());
      }),
    );
  });
});
