import { describe, expect, it } from "vitest";
import { filterFigure, lowestFigure, reducedFigure, teamCapabilityKg } from "@/lib/domain/lifting/hse-filter";

const BEST = filterFigure({ height: "knuckle-elbow", reach: "near" });

function reduced(liftsPerMinute: number, twistDeg: number): number {
  const outcome = reducedFigure(BEST, { liftsPerMinute, twistDeg });
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value.cautiousKg;
}

// HSE INDG143 "Manual handling at work", lifting and lowering diagram; figures read from a reproduction of it.
describe("the filter figures of INDG143", () => {
  it.each([
    ["above-shoulder", 7, 3, 10, 5],
    ["elbow-shoulder", 13, 7, 20, 10],
    ["knuckle-elbow", 16, 10, 25, 15],
    ["shin-knuckle", 13, 7, 20, 10],
    ["below-shin", 7, 3, 10, 5],
  ] as const)("%s: women %s near %s far, men %s near %s far", (height, womenNear, womenFar, menNear, menFar) => {
    expect(filterFigure({ height, reach: "near" })).toEqual({ cautiousKg: womenNear, upperKg: menNear });
    expect(filterFigure({ height, reach: "far" })).toEqual({ cautiousKg: womenFar, upperKg: menFar });
  });

  it("takes the lowest of all zones a lift passes", () => {
    const lowest = lowestFigure([
      { height: "knuckle-elbow", reach: "near" },
      { height: "shin-knuckle", reach: "near" },
      { height: "elbow-shoulder", reach: "far" },
    ]);
    expect(lowest).toEqual({ cautiousKg: 7, upperKg: 10 });
  });
});

describe("reductions for frequent and twisted lifting (INDG143)", () => {
  it.each([
    [0, 16], [0.5, 16], [0.51, 11.2], [1, 11.2], [2, 11.2],
    [2.1, 8], [5, 8], [8, 8], [8.1, 3.2], [12, 3.2], [13, 3.2],
  ])("%s lifts a minute leave %s kg of 16", (perMinute, kg) => {
    expect(reduced(perMinute, 0)).toBeCloseTo(kg, 9);
  });

  it.each([[0, 16], [45, 16], [46, 14.4], [90, 14.4], [91, 12.8]])("a twist of %s degrees leaves %s kg of 16", (deg, kg) => {
    expect(reduced(0, deg)).toBeCloseTo(kg, 9);
  });

  it("applies both", () => {
    expect(reduced(1, 60)).toBeCloseTo(16 * 0.7 * 0.9, 9);
  });

  it.each([[-0.1, 0], [NaN, 0], [Infinity, 0], [0, -1], [0, 181], [0, NaN]])("refuses %s lifts a minute with %s degrees", (perMinute, deg) => {
    expect(reducedFigure(BEST, { liftsPerMinute: perMinute, twistDeg: deg }).ok).toBe(false);
  });
});

describe("the team rule (HSE L23): two thirds for two, half for three", () => {
  it.each([
    [[16], 16], [[16, 16], 21.3], [[16, 25], 27.3], [[25, 25], 33.3],
    [[16, 16, 16], 24], [[16, 25, 25], 33], [[25, 25, 25], 37.5],
  ])("%s kg each: together %s kg", (each, kg) => {
    const outcome = teamCapabilityKg(each);
    expect(outcome.ok && outcome.value).toBeCloseTo(kg, 1);
  });

  it("has no rule for four people or for none, and refuses both", () => {
    const four = teamCapabilityKg([16, 16, 16, 16]);
    expect(four.ok).toBe(false);
    if (!four.ok) expect(four.problems[0]).toMatchObject({ code: "no-team-rule", value: 4, allowed: "1 to 3 people" });
    expect(teamCapabilityKg([]).ok).toBe(false);
  });

  it("refuses a person who can lift nothing or not a number", () => {
    expect(teamCapabilityKg([16, 0]).ok).toBe(false);
    expect(teamCapabilityKg([NaN]).ok).toBe(false);
  });
});
