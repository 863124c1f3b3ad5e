import { expect, test } from "vitest";
import { heatingHours, stageTimes } from "@/lib/domain/booking/stage-times";
import { at, stages, zone } from "./sample-question";

const wall = (text: { toZonedDateTimeISO: (zone: string) => { toPlainDateTime: () => { toString: () => string } } }) => text.toZonedDateTimeISO(zone).toPlainDateTime().toString();

test("stages follow one another without gaps, and the last one lasts until the booked end", () => {
  const times = stageTimes(stages, at("2026-12-07T12:00"), at("2026-12-14T12:00"));
  expect(times.map((time) => [time.stage, wall(time.start)])).toEqual([
    ["Dry", "2026-12-07T12:00:00"],
    ["Climb", "2026-12-08T00:00:00"],
    ["Flow", "2026-12-08T12:00:00"],
    ["Drop", "2026-12-08T16:00:00"],
    ["Soak", "2026-12-08T18:00:00"],
    ["Slow cool", "2026-12-09T14:00:00"],
    ["Run-down", "2026-12-12T02:00:00"],
    ["Open", "2026-12-13T14:00:00"],
  ]);
  times.slice(1).forEach((time, i) => expect(time.start.equals(times[i]?.end ?? at("2000-01-01T00:00"))).toBe(true));
  expect(times.at(-1)?.end.equals(at("2026-12-14T12:00"))).toBe(true);
});

test("stages count elapsed hours across a clock change: from Saturday noon 18 hours end at 07:00 in spring", () => {
  const [dry] = stageTimes([{ stage: "Dry", toC: 100, rateKPerH: 20, hours: 18, why: "" }], at("2027-03-27T12:00"));
  expect(dry && wall(dry.end)).toBe("2027-03-28T07:00:00");
  const [autumn] = stageTimes([{ stage: "Dry", toC: 100, rateKPerH: 20, hours: 18, why: "" }], at("2027-10-30T12:00"));
  expect(autumn && wall(autumn.end)).toBe("2027-10-31T05:00:00");
});

test("segments of one stage are one stretch, empty ones none, and stages beyond the booking are left out", () => {
  const climb = (hours: number) => ({ stage: "Climb" as const, toC: 500, rateKPerH: 50, hours, why: "" });
  const flow = { stage: "Flow" as const, toC: 850, rateKPerH: 0, hours: 5, why: "" };
  const times = stageTimes([climb(2), climb(0), climb(3), flow], at("2026-12-07T12:00"), at("2026-12-07T17:00"));
  expect(times.map((time) => time.stage)).toEqual(["Climb"]);
  expect(times[0]?.end.equals(at("2026-12-07T17:00"))).toBe(true);
});

test("heating lasts from door closed to the start of the soak", () => {
  expect(heatingHours(stages)).toBe(30);
  expect(heatingHours([])).toBe(0);
});
