import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import type { Clash } from "@/lib/domain/booking/clash";
import { clashWords } from "@/lib/domain/booking/clash-words";

const clash = (over: Partial<Clash>): Clash => ({
  key: "k", kind: "crowded", start: Temporal.Instant.fromEpochMilliseconds(0), end: Temporal.Instant.fromEpochMilliseconds(1),
  equipmentIds: [], firingIds: ["f"], startedFiringIds: [], askIds: [], sentence: "Seal by Ida Holm", ...over,
});

describe("what a clash means for one firing or ask, in general words", () => {
  it.each([
    ["a firing others want the weeks of", clash({ askIds: ["a"] }), "f", "another asks for the same weeks"],
    ["an ask for weeks a firing holds", clash({ askIds: ["a"] }), "a", "a firing holds the kiln then"],
    ["an ask beside another ask", clash({ firingIds: [], askIds: ["a", "b"] }), "b", "another asks for the same weeks"],
    ["the firing that runs over", clash({ kind: "overrun", firingIds: ["f", "g"] }), "f", "runs longer than its booking"],
    ["the firing it touches", clash({ kind: "overrun", firingIds: ["f", "g"] }), "g", "the firing before it runs over"],
    ["an outage", clash({ kind: "outage" }), "f", "something it needs is out of service"],
    ["a thin crew", clash({ kind: "thin-crew" }), "f", "too few hands on duty for a lift"],
    ["an overload", clash({ kind: "overload" }), "f", "too many kilns heating at once"],
  ])("%s", (_name, one, id, words) => {
    expect(clashWords(one, id)).toBe(words);
  });

  it("are none for whoever takes no part", () => {
    expect(clashWords(clash({}), "somebody else")).toBeNull();
  });
});
