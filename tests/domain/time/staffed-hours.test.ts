import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { checkWorkshopHours, handsOnDuty, isStaffed, nextStaffedDay, staffedWindows, wallInstant, windowsOfDay, type Weekday, type WorkshopHours } from "@/lib/domain/time/staffed-hours";

const zone = "Europe/Copenhagen";
const at = (text: string) => Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant();
const date = (text: string) => Temporal.PlainDate.from(text);

const hours: WorkshopHours = {
  timeZone: zone,
  weekly: [
    ...([1, 2, 3, 4, 5] as const).map((weekday) => ({ weekday, opensMin: 540, closesMin: 780, hands: 3 })),
    ...([1, 2, 3, 4, 5] as const).map((weekday) => ({ weekday, opensMin: 780, closesMin: 1020, hands: 2 })),
  ],
  closures: [{ from: "2026-12-24", to: "2027-01-03", reason: "year's end" }],
};

const sunday = (opensMin: number, closesMin: number, timeZone = zone): WorkshopHours => ({ timeZone, weekly: [{ weekday: 7, opensMin, closesMin, hands: 1 }], closures: [] });
const shown = (windows: Iterable<{ start: Temporal.Instant; end: Temporal.Instant; hands: number }>) =>
  [...windows].map((window) => `${window.start.toString()} ${window.end.toString()} ${window.hands}`);

describe("hours that cannot be", () => {
  const problem = (change: Partial<WorkshopHours>) => {
    const outcome = checkWorkshopHours({ ...hours, ...change });
    return outcome.ok ? null : outcome.problems[0];
  };
  const day = (change: object) => problem({ weekly: [{ weekday: 1, opensMin: 540, closesMin: 1020, hands: 1, ...change }] });

  test("the usual ones can", () => {
    expect(problem({})).toBeNull();
    expect(day({ opensMin: 0, closesMin: 1440 })).toBeNull();
    expect(day({ opensMin: 539, closesMin: 540 })).toBeNull();
  });

  test("closing must be after opening and within the day", () => {
    expect(day({ closesMin: 540 })).toMatchObject({ code: "closes-before-opening", field: "weekly.0.closesMin", message: "Closing at 09:00 must be after opening at 09:00 and no later than 24:00." });
    expect(day({ closesMin: 1441 })?.code).toBe("closes-before-opening");
    expect(day({ opensMin: -1 })?.field).toBe("weekly.0.opensMin");
    expect(day({ opensMin: NaN })?.field).toBe("weekly.0.opensMin");
  });

  test("hands are whole people, weekdays are 1 to 7", () => {
    expect(day({ hands: 0 })?.field).toBe("weekly.0.hands");
    expect(day({ hands: 1.5 })?.field).toBe("weekly.0.hands");
    expect(day({ weekday: 8 as Weekday })?.field).toBe("weekly.0.weekday");
  });

  test("windows of one weekday may touch but not overlap", () => {
    const pair = (opensMin: number) => problem({ weekly: [{ weekday: 1, opensMin: 540, closesMin: 780, hands: 1 }, { weekday: 1, opensMin, closesMin: 900, hands: 1 }] });
    expect(pair(780)).toBeNull();
    expect(pair(779)).toMatchObject({ code: "hours-overlap", field: "weekly.1" });
  });

  test("closures are dates in order, and the zone is a known one", () => {
    const closure = (from: string, to: string) => problem({ closures: [{ from, to, reason: "" }] });
    expect(closure("2027-02-28", "2027-02-28")).toBeNull();
    expect(closure("2027-03-01", "2027-02-28")?.code).toBe("end-before-start");
    expect(closure("2027-02-29", "2027-03-01")).toMatchObject({ code: "not-a-date", field: "closures.0.from" });
    expect(problem({ timeZone: "Europe/Nowhere" })?.field).toBe("timeZone");
  });
});

describe("staffed windows", () => {
  test("come in order, cut to what was asked", () => {
    expect(shown(staffedWindows(hours, at("2026-12-07T10:00"), at("2026-12-08T09:30")))).toEqual([
      "2026-12-07T09:00:00Z 2026-12-07T12:00:00Z 3",
      "2026-12-07T12:00:00Z 2026-12-07T16:00:00Z 2",
      "2026-12-08T08:00:00Z 2026-12-08T08:30:00Z 3",
    ]);
  });

  test("are computed only as they are asked for", () => {
    const forever = staffedWindows(hours, at("2026-12-07T08:00"), at("9000-01-01T00:00"));
    expect(forever.next().value?.start.equals(at("2026-12-07T09:00"))).toBe(true);
  });

  test("both days of a closure are closed, the days around it are not", () => {
    expect(windowsOfDay(hours, date("2026-12-23"))).toHaveLength(2);
    expect(windowsOfDay(hours, date("2026-12-24"))).toEqual([]);
    expect(windowsOfDay({ ...hours, closures: [{ from: "2027-01-04", to: "2027-01-04", reason: "" }] }, date("2027-01-05"))).toHaveLength(2);
    expect(nextStaffedDay(hours, date("2026-12-23"))?.toString()).toBe("2027-01-04");
  });

  test("keep their wall times across both clock changes: 09:00 is 08:00Z in winter and 07:00Z in summer", () => {
    const opens = (day: string) => windowsOfDay(hours, date(day))[0]?.start.toString();
    expect([opens("2027-03-26"), opens("2027-03-29"), opens("2027-10-29"), opens("2027-11-01")]).toEqual([
      "2027-03-26T08:00:00Z",
      "2027-03-29T07:00:00Z",
      "2027-10-29T07:00:00Z",
      "2027-11-01T08:00:00Z",
    ]);
  });
});

describe("the night of a clock change", () => {
  test("in spring a window over the skipped hour is an hour shorter", () => {
    expect(shown(windowsOfDay(sunday(60, 240), date("2027-03-28")))).toEqual(["2027-03-28T00:00:00Z 2027-03-28T02:00:00Z 1"]);
  });

  test("a time that is skipped is the moment of the change, so a window within the skipped hour is none", () => {
    expect(wallInstant(date("2027-03-28"), 120, zone).toString()).toBe("2027-03-28T01:00:00Z");
    expect(wallInstant(date("2027-03-28"), 150, zone).toString()).toBe("2027-03-28T01:00:00Z");
    expect(wallInstant(date("2027-03-28"), 180, zone).toString()).toBe("2027-03-28T01:00:00Z");
    expect(windowsOfDay(sunday(125, 175), date("2027-03-28"))).toEqual([]);
  });

  test("in autumn a window over the repeated hour is an hour longer, and a repeated time is its first showing", () => {
    expect(shown(windowsOfDay(sunday(60, 240), date("2027-10-31")))).toEqual(["2027-10-30T23:00:00Z 2027-10-31T03:00:00Z 1"]);
    expect(wallInstant(date("2027-10-31"), 150, zone).toString()).toBe("2027-10-31T00:30:00Z");
  });

  test("a zone that skips midnight opens at its first instant", () => {
    // Beirut went forward from 00:00 to 01:00 on 31 March 2024 (IANA time zone database, rule "Lebanon").
    expect(wallInstant(date("2024-03-31"), 0, "Asia/Beirut").toString()).toBe("2024-03-30T22:00:00Z");
  });

  test("midnight at the end of a day is the start of the next", () => {
    expect(wallInstant(date("2027-03-27"), 1440, zone).toString()).toBe("2027-03-27T23:00:00Z");
  });
});

describe("who is there", () => {
  test("the fewest hands during an interval; windows that touch count as one", () => {
    const hands = (from: string, to: string) => handsOnDuty(hours, { start: at(from), end: at(to) });
    expect(hands("2026-12-07T09:00", "2026-12-07T13:00")).toBe(3);
    expect(hands("2026-12-07T12:30", "2026-12-07T13:30")).toBe(2);
    expect(hands("2026-12-07T09:00", "2026-12-07T17:00")).toBe(2);
  });

  test("nobody as soon as a minute lies outside", () => {
    const staffed = (from: string, to: string) => isStaffed(hours, { start: at(from), end: at(to) });
    expect(staffed("2026-12-07T16:30", "2026-12-07T17:00")).toBe(true);
    expect(staffed("2026-12-07T16:30", "2026-12-07T17:01")).toBe(false);
    expect(staffed("2026-12-07T08:59", "2026-12-07T09:30")).toBe(false);
    expect(staffed("2026-12-07T16:30", "2026-12-08T09:30")).toBe(false);
    expect(staffed("2026-12-12T10:00", "2026-12-12T11:00")).toBe(false);
  });

  test("the next staffed day after a Friday is Monday, and a workshop without hours has none", () => {
    expect(nextStaffedDay(hours, date("2026-12-11"))?.toString()).toBe("2026-12-14");
    expect(nextStaffedDay({ ...hours, weekly: [] }, date("2026-12-11"))).toBeNull();
  });
});
