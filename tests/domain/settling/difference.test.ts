import { describe, expect, it } from "vitest";
import { changesOf } from "@/lib/domain/settling/clash/difference";
import type { Move } from "@/lib/domain/settling/clash/settlement";

const move = (runId: string, kilnId: string, day: number): Move => ({
  runId, title: runId, memberName: "Ida", from: { kilnId: "west", day: 1 }, to: { kilnId, day }, until: day + 5, steamDay: null, days: day - 1, neededBy: null, daysLate: 0,
});

describe("what is different between two settlements", () => {
  it("is said move by move: gone, different, new, as it was, in this order", () => {
    const before = [{ runId: "stays", kilnId: "east", day: 4 }, { runId: "later", kilnId: "east", day: 9 }, { runId: "elsewhere", kilnId: "east", day: 9 }, { runId: "gone", kilnId: "west", day: 3 }];
    const after = [move("stays", "east", 4), move("fresh", "west", 2), move("later", "east", 10), move("elsewhere", "west", 9)];
    expect(changesOf(before, after).map(({ change, runId }) => [change, runId])).toEqual([["gone", "gone"], ["different", "later"], ["different", "elsewhere"], ["new", "fresh"], ["same", "stays"]]);
  });

  it("is nothing between a settlement and itself, and everything between one and none", () => {
    const moves = [move("a", "east", 4), move("b", "west", 2)];
    const places = moves.map(({ runId, to }) => ({ runId, ...to }));
    expect(changesOf(places, moves).map(({ change }) => change)).toEqual(["same", "same"]);
    expect(changesOf(places, []).map(({ change }) => change)).toEqual(["gone", "gone"]);
    expect(changesOf([], moves).map(({ change }) => change)).toEqual(["new", "new"]);
  });
});
