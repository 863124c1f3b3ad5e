import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { fewestHands, hoursTable } from "@/lib/domain/time/hours-table";
import { handsOnDuty, type WorkshopHours } from "@/lib/domain/time/staffed-hours";

const MINUTE = 60_000;
const hours: WorkshopHours = {
  timeZone: "Europe/Copenhagen",
  weekly: [
    ...([1, 2, 3, 5] as const).flatMap((weekday) => [{ weekday, opensMin: 540, closesMin: 720, hands: 2 }, { weekday, opensMin: 720, closesMin: 1440, hands: 3 }]),
    { weekday: 6, opensMin: 0, closesMin: 600, hands: 4 }, { weekday: 7, opensMin: 60, closesMin: 300, hands: 1 },
  ],
  closures: [{ from: "2027-03-30", to: "2027-03-30", reason: "holiday" }],
};
const hands = (from: string, to: string): number => {
  const at = (text: string): number => Temporal.PlainDateTime.from(text).toZonedDateTime(hours.timeZone).epochMilliseconds;
  return fewestHands(hoursTable(hours), hours.timeZone, { start: at(from), end: at(to) });
};

describe("the fewest hands within a span", () => {
  it.each([
    ["2027-03-22T09:00", "2027-03-22T12:00", 2],
    ["2027-03-22T11:59", "2027-03-22T12:01", 2],
    ["2027-03-22T12:00", "2027-03-22T12:01", 3],
    ["2027-03-22T08:59", "2027-03-22T12:00", 0],
    ["2027-03-26T23:00", "2027-03-27T10:00", 3],
    ["2027-03-26T23:00", "2027-03-27T10:01", 0],
    ["2027-03-25T10:00", "2027-03-25T11:00", 0],
    ["2027-03-30T10:00", "2027-03-30T11:00", 0],
    ["2027-03-22T10:00", "2027-03-22T10:00", 0],
  ])("from %s to %s is %d", (from, to, expected) => expect(hands(from, to)).toBe(expected));

  it("is what it is on the calendar's own clock, also when that changes", () => {
    const from = Temporal.Instant.from("2027-03-24T00:00Z").epochMilliseconds;
    fc.assert(fc.property(fc.integer({ min: 0, max: 8 * 24 * 60 }), fc.integer({ min: 0, max: 3000 }), (start, length) => {
      const span = { start: from + start * MINUTE, end: from + (start + length) * MINUTE };
      const at = (ms: number) => Temporal.Instant.fromEpochMilliseconds(ms);
      expect(fewestHands(hoursTable(hours), hours.timeZone, span)).toBe(handsOnDuty(hours, { start: at(span.start), end: at(span.end) }));
    }));
  });
});
