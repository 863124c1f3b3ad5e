import { Temporal } from "temporal-polyfill";
import { expect, it } from "vitest";
import { offeredFrom, willDo } from "@/lib/domain/asking/will-do";

const at = (iso: string) => Temporal.Instant.from(iso);
const run = (daysLate: number, kilnFrom = "2027-04-10T08:00:00Z") => ({ daysLate, kilnFrom: at(kilnFrom) });
const neededBy = Temporal.PlainDate.from("2027-05-01");

it("keeps the date, or misses it by no more days than would still do", () => {
  expect(willDo(run(0), { neededBy, lateDays: 0, wishedFrom: null })).toBe(true);
  expect(willDo(run(1), { neededBy, lateDays: 0, wishedFrom: null })).toBe(false);
  expect(willDo(run(7), { neededBy, lateDays: 7, wishedFrom: null })).toBe(true);
  expect(willDo(run(8), { neededBy, lateDays: 7, wishedFrom: null })).toBe(false);
});

it("is also in the weeks that are wished for, up to four days later", () => {
  const wishedFrom = at("2027-04-06T08:00:00Z");
  expect(willDo(run(9), { neededBy: null, lateDays: 0, wishedFrom })).toBe(true);
  expect(willDo(run(9, "2027-04-10T08:15:00Z"), { neededBy: null, lateDays: 0, wishedFrom })).toBe(false);
  expect(willDo(run(9), { neededBy, lateDays: 0, wishedFrom })).toBe(true);
  expect(willDo(run(0), { neededBy: null, lateDays: 0, wishedFrom: null })).toBe(false);
});

it("begins on the ask's first day, by the workshop's clock, and no sooner than a hold lasts", () => {
  const now = at("2027-03-27T11:00:00Z");
  const from = (day: string | null) => offeredFrom(now, day === null ? null : Temporal.PlainDate.from(day), "Europe/Copenhagen").toString();
  expect(from("2027-03-30")).toBe("2027-03-29T22:00:00Z");
  expect(from("2027-03-28")).toBe("2027-03-28T11:00:00Z");
  expect(from("2027-01-01")).toBe("2027-03-28T11:00:00Z");
  expect(from(null)).toBe("2027-03-28T11:00:00Z");
});
