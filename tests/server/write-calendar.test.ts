import fc from "fast-check";
import ICAL from "ical.js";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import type { FeedEntry } from "@/lib/domain/feed/feed-entry";
import { writeCalendar } from "@/lib/server/feeds/write-calendar";
import { readIcs } from "@/tests/helpers/read-ics";

const NOW = Temporal.Instant.from("2027-01-15T09:00:00Z");
const ENTRY = { id: "one", sequence: 3, changedAt: Temporal.Instant.from("2027-01-10T12:34:56.789Z"), cancelled: false, title: "Kiln: Low tide", place: "North kiln", text: "", path: "/firings/1", busy: false };

function timed(start: string, end: string, more: Partial<FeedEntry> = {}): FeedEntry {
  return { ...ENTRY, start: Temporal.Instant.from(start), end: Temporal.Instant.from(end), ...more } as FeedEntry;
}

function write(entries: readonly FeedEntry[], timeZone = "Europe/Copenhagen", name = "Jonas Brink"): string {
  return writeCalendar({ name, timeZone, publicUrl: "https://lehrbook.example", now: NOW, entries });
}

const only = (entry: FeedEntry, timeZone?: string) => readIcs(write([entry], timeZone))[0];

describe("times of an entry, read by an independent parser", () => {
  it.each([
    ["Europe/Copenhagen", "2027-03-27T08:00:00Z", "2027-03-29T07:00:00Z"],
    ["Europe/Copenhagen", "2027-10-30T07:00:00Z", "2027-11-01T08:00:00Z"],
    ["America/New_York", "2027-03-13T14:00:00Z", "2027-03-15T13:00:00Z"],
    ["America/New_York", "2027-11-06T13:00:00Z", "2027-11-08T14:00:00Z"],
    ["Pacific/Auckland", "2027-04-02T20:00:00Z", "2027-04-04T21:00:00Z"],
    ["Pacific/Auckland", "2027-09-24T21:00:00Z", "2027-09-26T20:00:00Z"],
  ])("are right on both sides of a change of the clocks in %s", (timeZone, start, end) => {
    expect(only(timed(start, end), timeZone)).toMatchObject({ start, end, zone: timeZone });
    // Nine in the morning on the clocks of the place, before the change as after it.
    const clocks = [...write([timed(start, end)], timeZone).matchAll(/^DT(?:START|END);TZID=\S+:\d{8}T(\d{6})\r$/gm)].map(([, clock]) => clock);
    expect(clocks).toEqual(["090000", "090000"]);
  });

  it("are right in the hour that the clocks show twice, at its first showing and its second", () => {
    for (const start of ["2027-10-31T00:30:00Z", "2027-10-31T01:30:00Z"]) {
      expect(only(timed(start, "2027-10-31T05:00:00Z"))).toMatchObject({ start, end: "2027-10-31T05:00:00Z" });
    }
  });

  it("are right at any quarter of an hour in any zone", () => {
    const zones = ["Europe/Copenhagen", "America/New_York", "Pacific/Auckland", "Australia/Lord_Howe", "Asia/Kolkata", "UTC"];
    fc.assert(
      fc.property(fc.constantFrom(...zones), fc.nat({ max: 96 * 540 }), fc.integer({ min: 1, max: 96 * 35 }), (timeZone, quarter, quarters) => {
        const start = NOW.subtract({ hours: 24 * 90 }).add({ minutes: quarter * 15 });
        const end = start.add({ minutes: quarters * 15 });
        expect(only(timed(start.toString(), end.toString()), timeZone)).toMatchObject({ start: start.toString(), end: end.toString() });
      }),
      { numRuns: 150 },
    );
  });

  it("are whole days for a closure, the day after the last one being its end", () => {
    const closure = { ...ENTRY, fromDay: Temporal.PlainDate.from("2027-12-24"), toDay: Temporal.PlainDate.from("2027-12-31") };
    expect(only(closure)).toMatchObject({ start: "2027-12-24", end: "2028-01-01" });
  });
});

describe("what an entry says", () => {
  it("is called the same on every host, counts its changes, and says when the last one was", () => {
    const event = only(timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z"));
    expect(event).toMatchObject({ uid: "one@lehrbook.invalid", sequence: 3, status: "CONFIRMED", stamp: "2027-01-10T12:34:56Z", lastModified: "2027-01-10T12:34:56Z" });
    expect(event?.description).toBe("https://lehrbook.example/firings/1");
  });

  it("is cancelled in its status and in its words", () => {
    expect(only(timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { cancelled: true }))).toMatchObject({ status: "CANCELLED", summary: "Cancelled: Kiln: Low tide" });
  });

  it("comes back as it was written, whatever people call their castings", () => {
    const words = fc.string({ unit: "grapheme", minLength: 1, maxLength: 200 }).filter((text) => !/\p{Cc}/u.test(text) && text.trim() === text && text !== "");
    fc.assert(
      fc.property(words, words, (title, text) => {
        const event = only(timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { title, place: title, text, path: null }));
        expect(event).toMatchObject({ summary: title, location: title, description: text });
      }),
      { numRuns: 200 },
    );
  });

  it.each([
    ["a title", (evil: string) => write([timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { title: evil })])],
    ["a place", (evil: string) => write([timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { place: evil })])],
    ["a text", (evil: string) => write([timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { text: evil })])],
    ["a name", (evil: string) => write([timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z")], "Europe/Copenhagen", evil)],
  ])("cannot smuggle an entry in with %s, nor a control character", (_where, writeWith) => {
    for (const evil of ["x\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil", "x\nBEGIN:VEVENT", "x\rEND:VCALENDAR", "x\u0000\u0007\u001b[31m\u007f\u0085,;\\n"]) {
      const text = writeWith(evil);
      expect(readIcs(text)).toHaveLength(1);
      expect(text.replaceAll("\r\n", "")).not.toMatch(/\p{Cc}/u);
    }
  });
});

describe("the calendar as a file", () => {
  const long = "Ærø, øre; glas \\ 玻璃 🜂 ".repeat(20);
  const text = write([timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z", { title: long, text: long }), timed("2027-01-01T08:00:00Z", "2027-01-08T08:00:00Z", { id: "two" })]);

  it("has lines of 75 octets at most, each ended by CRLF and none cut inside a character", () => {
    const lines = text.split("\r\n");
    expect(lines.at(-1)).toBe("");
    for (const line of lines) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(line).not.toMatch(/[\r\n]/);
      expect(Buffer.from(line).toString("utf8")).toBe(line);
    }
  });

  it("brings the rules of its one time zone, before anything that goes by them", () => {
    expect(text.match(/^BEGIN:VTIMEZONE\r$/gm)).toHaveLength(1);
    expect(text.indexOf("BEGIN:VTIMEZONE")).toBeLessThan(text.indexOf("BEGIN:VEVENT"));
    expect(text).not.toContain("METHOD:");
  });

  it("is the same whenever it is written, in whatever order its entries come", () => {
    const [a, b] = [timed("2027-02-01T08:00:00Z", "2027-02-08T08:00:00Z"), timed("2027-01-01T08:00:00Z", "2027-01-08T08:00:00Z", { id: "two" })];
    const later = writeCalendar({ name: "Jonas Brink", timeZone: "Europe/Copenhagen", publicUrl: "https://lehrbook.example", now: NOW.add({ hours: 30 }), entries: [b, a] });
    expect(later).toBe(write([a, b]));
  });

  it("is whole without any entry", () => {
    const empty = new ICAL.Component(ICAL.parse(write([])));
    expect(empty.getAllSubcomponents("vevent")).toEqual([]);
    expect(empty.getAllSubcomponents("vtimezone")).toHaveLength(1);
  });
});
