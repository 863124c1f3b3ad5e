import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { daysUntilUnloaded, season, SEASON_DAYS } from "@/lib/domain/settling/clash/season";
import { unloadDay, withStandingRoom } from "@/lib/domain/settling/clash/standing-room";
import { clashGround, run } from "@/tests/helpers/clash";

const MONDAY = Temporal.PlainDate.from("2027-03-22");
const weekly = ([1, 2, 3, 4, 5] as const).map((weekday) => ({ weekday, opensMin: 540, closesMin: 1020, hands: 2 }));
const days = season({ timeZone: "Europe/Copenhagen", weekly, closures: [{ from: "2027-03-24", to: "2027-03-24", reason: "stocktaking" }] }, MONDAY);

describe("the coming season in days", () => {
  it("counts people and hours of each day from today on", () => {
    expect(days.handsOn).toHaveLength(SEASON_DAYS);
    expect(days.handsOn.slice(0, 8)).toEqual([2, 2, 0, 2, 2, 0, 0, 2]);
    expect(days.staffedHoursOn.slice(0, 3)).toEqual([8, 8, 0]);
  });

  it("numbers days by the workshop's own calendar, over the change of the clocks", () => {
    const at = (text: string): number => days.dayOf(Temporal.ZonedDateTime.from(`${text}[Europe/Copenhagen]`).toInstant());
    expect([at("2027-03-22T00:00"), at("2027-03-28T23:59"), at("2027-03-29T00:00"), at("2027-03-21T23:59")]).toEqual([0, 6, 7, -1]);
  });

  it.each([
    ["cool on the day it is unloaded", 0, 3, 3, 3],
    ["cool on a Saturday, unloaded on Monday", 0, 5, 7, 5],
    ["cool on a Friday evening, unloaded on Monday", 0, 4, 7, 5],
    ["unloaded days after it was cool", 0, 3, 8, 8],
    ["cool on the day the door closes", 3, 3, 3, 1],
  ])("takes so many days until it may be unloaded: %s", (_what, closed, cool, unloaded, expected) => {
    expect(daysUntilUnloaded(days, { closed, cool, unloaded })).toBe(expected);
  });
});

describe("room for what stands", () => {
  const standing = { kilnId: "west", day: 1 };
  const ground = clashGround([run("bowl", { standing, steams: true, heatingDays: 2 }), run("seal", { standing: { kilnId: "east", day: 1 }, steams: true })], {
    liftsOn: new Array<number>(28).fill(1),
    steamersOn: new Array<number>(28).fill(1),
    powerLeftKw: new Array<number>(28).fill(12),
  });
  const nothing = { lifts: new Set<number>(), power: new Set<number>() };

  it("is there on every day without a clash, and no more than that", () => {
    const { liftsOn, steamersOn, powerLeftKw } = withStandingRoom(ground, nothing);
    expect(unloadDay(ground, run("bowl", { standing }), standing)).toBe(7);
    expect(liftsOn.slice(0, 8)).toEqual([1, 2, 1, 1, 1, 1, 1, 2]);
    expect(steamersOn.slice(0, 2)).toEqual([2, 1]);
    expect(powerLeftKw?.slice(0, 4)).toEqual([12, 18, 12, 12]);
  });

  it("is not there on days that clash", () => {
    const { liftsOn, powerLeftKw } = withStandingRoom(ground, { lifts: new Set([1]), power: new Set([1]) });
    expect(liftsOn[1]).toBe(1);
    expect(powerLeftKw?.[1]).toBe(12);
  });
});
