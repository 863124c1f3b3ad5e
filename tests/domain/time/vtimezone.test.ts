import fc from "fast-check";
import ICAL from "ical.js";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { vtimezone } from "@/lib/domain/time/vtimezone";

const FROM = Temporal.Instant.from("2027-01-01T00:00:00Z");
const TO = Temporal.Instant.from("2028-07-01T00:00:00Z");

/** Reads it with an independent parser and asks it what a wall clock means. */
function parsed(timeZone: string, from = FROM, to = TO): ICAL.Timezone {
  const component = new ICAL.Component(ICAL.parse(`BEGIN:VCALENDAR\r\n${vtimezone(timeZone, from, to)}END:VCALENDAR`));
  const zone = component.getFirstSubcomponent("vtimezone");
  if (zone === null) throw new Error("no VTIMEZONE was read");
  return new ICAL.Timezone(zone);
}

function instantOf(zone: ICAL.Timezone, wall: string): string {
  const time = ICAL.Time.fromDateTimeString(wall);
  time.zone = zone;
  return Temporal.Instant.fromEpochMilliseconds(time.toUnixTime() * 1000).toString();
}

describe("a time zone's rules, read by an independent parser", () => {
  it.each([
    // Changes at 01:00 UTC on the last Sundays of March and October (directive 2000/84/EC, from memory).
    ["Europe/Copenhagen", "2027-03-28T01:59:59", "2027-03-28T00:59:59Z"],
    ["Europe/Copenhagen", "2027-03-28T03:00:00", "2027-03-28T01:00:00Z"],
    ["Europe/Copenhagen", "2027-10-31T01:59:59", "2027-10-30T23:59:59Z"],
    ["Europe/Copenhagen", "2027-10-31T03:00:00", "2027-10-31T02:00:00Z"],
    // 02:00 local on the second Sunday of March and the first of November (Energy Policy Act of 2005, from memory).
    ["America/New_York", "2027-03-14T01:59:59", "2027-03-14T06:59:59Z"],
    ["America/New_York", "2027-03-14T03:00:00", "2027-03-14T07:00:00Z"],
    ["America/New_York", "2027-11-07T00:59:59", "2027-11-07T04:59:59Z"],
    ["America/New_York", "2027-11-07T02:00:00", "2027-11-07T07:00:00Z"],
    // Summer over the turn of the year: until the first Sunday of April, from the last of September (New Zealand Daylight Time Order 2007, from memory).
    ["Pacific/Auckland", "2027-01-15T12:00:00", "2027-01-14T23:00:00Z"],
    ["Pacific/Auckland", "2027-04-04T03:00:00", "2027-04-03T15:00:00Z"],
    ["Pacific/Auckland", "2027-09-26T01:59:59", "2027-09-25T13:59:59Z"],
    ["Pacific/Auckland", "2027-09-26T03:00:00", "2027-09-25T14:00:00Z"],
    ["Asia/Kolkata", "2027-06-01T05:30:00", "2027-06-01T00:00:00Z"],
    ["Etc/UTC", "2027-06-01T05:30:00", "2027-06-01T05:30:00Z"],
  ])("%s shows %s at %s", (timeZone, wall, instant) => {
    expect(instantOf(parsed(timeZone), wall)).toBe(instant);
  });

  it("is right at any minute of any zone whose wall clock shows it once", () => {
    const zones = ["Europe/Copenhagen", "America/New_York", "Pacific/Auckland", "Europe/Dublin", "Africa/Casablanca", "Australia/Lord_Howe", "America/St_Johns", "Asia/Tokyo", "America/Sao_Paulo", "Pacific/Chatham", "Africa/Monrovia"];
    const read = new Map(zones.map((zone) => [zone, parsed(zone)] as const));
    const minutes = FROM.until(TO).total("minutes");
    fc.assert(
      fc.property(fc.constantFrom(...zones), fc.integer({ min: 0, max: minutes }), (timeZone, minute) => {
        const at = FROM.add({ minutes: minute });
        const wall = at.toZonedDateTimeISO(timeZone).toPlainDateTime();
        const once = wall.toZonedDateTime(timeZone, { disambiguation: "earlier" }).equals(wall.toZonedDateTime(timeZone, { disambiguation: "later" }));
        const zone = read.get(timeZone);
        if (once && zone !== undefined) expect(instantOf(zone, wall.toString({ smallestUnit: "second" }))).toBe(at.toString());
      }),
      { numRuns: 400 },
    );
  });
});

describe("its observances", () => {
  it("are those of the time asked for, and the one before", () => {
    const text = vtimezone("Europe/Copenhagen", Temporal.Instant.from("2027-05-01T00:00:00Z"), Temporal.Instant.from("2027-12-01T00:00:00Z"));
    expect(text.split("\r\n")).toEqual([
      "BEGIN:VTIMEZONE", "TZID:Europe/Copenhagen",
      "BEGIN:DAYLIGHT", "DTSTART:20270328T020000", "TZOFFSETFROM:+0100", "TZOFFSETTO:+0200", "END:DAYLIGHT",
      "BEGIN:STANDARD", "DTSTART:20271031T030000", "TZOFFSETFROM:+0200", "TZOFFSETTO:+0100", "END:STANDARD",
      "END:VTIMEZONE", "",
    ]);
  });

  it("take in a change at the first instant and at the last, and none after it", () => {
    const change = Temporal.Instant.from("2027-10-31T01:00:00Z");
    const count = (from: Temporal.Instant, to: Temporal.Instant) => vtimezone("Europe/Copenhagen", from, to).split("TZOFFSETTO").length - 1;
    expect(count(change, change)).toBe(1);
    expect(vtimezone("Europe/Copenhagen", change, change)).toContain("TZOFFSETTO:+0100");
    expect(count(change.subtract({ seconds: 1 }), change)).toBe(2);
    expect(count(change.subtract({ seconds: 2 }), change.subtract({ seconds: 1 }))).toBe(1);
  });

  it("call no clocks that stayed forward summer time", () => {
    // Singapore went from 7:30 to 8 hours ahead on 1 January 1982 and stayed (tz database, from memory).
    expect(vtimezone("Asia/Singapore", FROM, TO)).not.toContain("DAYLIGHT");
  });
});
