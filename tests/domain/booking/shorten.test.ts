import { expect, test } from "vitest";
import { earlierEnd, type EarlierEndWish } from "@/lib/domain/booking/shorten";
import { aKiln, aQuestion, at } from "./sample-question";

/** Turnaround 2 h, unloading 30 min, staffed 09:00 to 17:00 from Monday to Friday; 2026-12-14 is a Monday. */
const kiln = aKiln("A");
const give = (change: Partial<EarlierEndWish>) =>
  earlierEnd(aQuestion({}), kiln, { kilnFrom: at("2026-12-07T10:00"), booked: at("2026-12-17T11:30"), wanted: at("2026-12-15T11:30"), coolAt: at("2026-12-14T20:00"), ...change });
const codeOf = (change: Partial<EarlierEndWish>) => {
  const found = give(change);
  return found.ok ? "ok" : found.problems[0].code;
};

test("a cool load is unloaded at the next opening, and the kiln is free after its turnaround", () => {
  const found = give({});
  expect(found.ok && [found.value.unloadFrom, found.value.kilnTo]).toEqual([at("2026-12-15T09:00"), at("2026-12-15T11:30")]);
});

test("a wish before the load is cool and unloaded is refused with the earliest that would do", () => {
  const found = give({ wanted: at("2026-12-15T11:29") });
  expect(found.ok ? null : found.problems[0]).toMatchObject({ code: "too-soon", field: "kilnTo", allowed: expect.stringContaining("Tue 15 Dec, 11:30"), data: { kilnTo: at("2026-12-15T11:30").toString() } });
});

test("gives back only what ends before the booking does, to the minute", () => {
  expect(codeOf({ booked: at("2026-12-15T11:30") })).toBe("nothing-to-give");
  expect(codeOf({ booked: at("2026-12-15T11:31") })).toBe("ok");
  expect(codeOf({ wanted: at("2026-12-16T19:00") })).toBe("ok");
  expect(codeOf({ wanted: at("2026-12-16T19:01") })).toBe("not-shorter");
});

test("a wish in the night before the booked end gains nothing and says so", () => {
  const found = give({ wanted: at("2026-12-16T23:00"), booked: at("2026-12-17T11:30") });
  expect(found.ok ? null : found.problems[0]).toMatchObject({ code: "not-shorter", allowed: "from Tue 15 Dec, 11:30 to before Thu 17 Dec, 11:30" });
});
