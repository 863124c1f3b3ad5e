import { Temporal } from "temporal-polyfill";
import { expect, it } from "vitest";
import { showUntil } from "@/lib/domain/time/show-until";

const ZONE = "Europe/Copenhagen";
const shown = (until: string, now: string) => showUntil(Temporal.Instant.from(until), Temporal.Instant.from(now), ZONE);

it("says today and tomorrow by the workshop's own calendar, and a day otherwise", () => {
  expect(shown("2027-03-02T16:30:00Z", "2027-03-02T11:10:00Z")).toBe("today, 17:30 (5 h 20 min from now)");
  expect(shown("2027-03-02T23:15:00Z", "2027-03-02T11:15:00Z")).toBe("tomorrow, 00:15 (12 h from now)");
  expect(shown("2027-03-08T08:00:00Z", "2027-03-02T08:00:00Z")).toBe("Mon 8 Mar, 09:00 (144 h from now)");
  expect(shown("2027-03-02T11:10:59Z", "2027-03-02T11:10:00Z")).toBe("today, 12:10 (0 min from now)");
  expect(shown("2027-03-02T11:00:00Z", "2027-03-02T11:10:00Z")).toBe("today, 12:00 (past)");
});

it("counts elapsed hours over a change of the clocks", () => {
  expect(shown("2027-03-28T12:00:00Z", "2027-03-27T12:00:00Z")).toBe("tomorrow, 14:00 (24 h from now)");
  expect(shown("2027-10-31T12:00:00Z", "2027-10-30T12:00:00Z")).toBe("tomorrow, 13:00 (24 h from now)");
});

it("says which showing is meant of a time that the clocks show twice", () => {
  expect(shown("2027-10-31T00:30:00Z", "2027-10-30T20:30:00Z")).toBe("tomorrow, 02:30 for the first time (4 h from now)");
  expect(shown("2027-10-31T01:30:45Z", "2027-10-30T20:30:45Z")).toBe("tomorrow, 02:30 for the second time (5 h from now)");
  expect(shown("2027-10-31T02:00:00Z", "2027-10-30T20:00:00Z")).toBe("tomorrow, 03:00 (6 h from now)");
});
