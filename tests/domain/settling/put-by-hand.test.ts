import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ClashGround } from "@/lib/domain/settling/clash/clash-ground";
import { planAsPut } from "@/lib/domain/settling/clash/put-by-hand";
import type { Place } from "@/lib/domain/settling/clash/settlement";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { clashGround, run, sayDay, settled, smallClash } from "@/tests/helpers/clash";

const put = (ground: ClashGround, places: Readonly<Record<string, Place>>, byHand: readonly string[] = Object.keys(places)) =>
  planAsPut(ground, { places: new Map(Object.entries(places)), byHand }, "least-late", DEFAULT_WEIGHTS, sayDay);
const problemOf = (ground: ClashGround, places: Readonly<Record<string, Place>>): string => {
  const outcome = put(ground, places);
  return outcome.ok ? "stands" : outcome.problems[0].message;
};

describe("a settlement put together by hand", () => {
  it("costs and means what the search says of the same plan", () => {
    fc.assert(
      fc.property(smallClash, (ground) => {
        const found = settled(ground, {}, 60);
        if (!found.ok) return;
        for (const { aim, moves, cost, figures } of found.value) {
          const again = planAsPut(ground, { places: new Map(moves.map(({ runId, to }) => [runId, to])), byHand: moves.map(({ runId }) => runId) }, aim, DEFAULT_WEIGHTS, sayDay);
          if (!again.ok) throw new Error(again.problems[0].message);
          expect(again.value.cost).toBeCloseTo(cost, 6);
          expect(again.value.figures).toEqual(figures);
        }
      }),
      { numRuns: 60, endOnFailure: true },
    );
  });

  it("leaves what is not named: runs where they stand, asks waiting", () => {
    const ground = clashGround([run("bowl", { standing: { kilnId: "west", day: 1 } }), run("seal")]);
    const outcome = put(ground, {});
    expect(outcome.ok && outcome.value.moves).toEqual([]);
    expect(outcome.ok && outcome.value.figures.asksPlaced).toBe(0);
  });

  it.each([
    ["where it stands, next to another", { seal: { kilnId: "west", day: 7 } }, "stands"],
    ["into another's days", { seal: { kilnId: "west", day: 4 } }, "Ida's seal would have West kiln from day 4 until day 9; Ida's bowl has it from day 1 until day 7."],
    ["on a day without people", { seal: { kilnId: "east", day: 5 } }, "Ida's seal cannot be held on day 5: it takes 1 to load and 0 are on duty."],
    ["on a kiln that is none", { seal: { kilnId: "south", day: 1 } }, "Ida's seal cannot be held on south: there is no such kiln."],
    ["too late to be unloaded", { seal: { kilnId: "east", day: 25 } }, "Ida's seal would not be unloaded by day 27, where the calendar ends."],
  ])("says in a sentence why it cannot stand: %s", (_what, places, said) => {
    const ground = clashGround([run("bowl", { standing: { kilnId: "west", day: 1 } }), run("seal")]);
    expect(problemOf(ground, places as unknown as Record<string, Place>)).toBe(said);
  });

  it("minds lifts, steamers and the limit as every settlement does", () => {
    const seals = [run("a", { steams: true }), run("b", { steams: true })];
    const apart = { a: { kilnId: "west", day: 1 }, b: { kilnId: "east", day: 2 } };
    const together = { a: { kilnId: "west", day: 1 }, b: { kilnId: "east", day: 1 } };
    expect(problemOf(clashGround(seals), apart)).toBe("stands");
    expect(problemOf(clashGround(seals), together)).toBe("No steamer is free for Ida's b in the days before day 1.");
    const few = clashGround([run("a"), run("b")], { liftsOn: new Array<number>(28).fill(1) });
    expect(problemOf(few, together)).toBe("On day 1 there are 2 loads and unloads; 1 are possible.");
    const weak = clashGround([run("a"), run("b")], { powerLeftKw: new Array<number>(28).fill(17) });
    expect(problemOf(weak, together)).toBe("On day 1 kilns that heat draw 18 kW; 17 kW are left.");
    expect(problemOf(clashGround([run("a"), run("b")], { powerLeftKw: new Array<number>(28).fill(18) }), together)).toBe("stands");
  });
});
