import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { inOrder, RULE, type WaitingAsk } from "@/lib/domain/asking/order";

const NOW = Temporal.Instant.from("2027-03-15T10:00:00Z");
const ZONE = "Europe/Copenhagen";
const weeksAgo = (weeks: number) => NOW.subtract({ hours: Math.round(weeks * 168) });
const day = (iso: string) => Temporal.PlainDate.from(iso);

function ask(askId: string, change: Partial<WaitingAsk> = {}): WaitingAsk {
  return { askId, title: `Piece ${askId}`, owner: `Owner ${askId}`, kilnHours: 0, askedAt: weeksAgo(1), neededBy: day("2027-06-01"), importance: 2, ...change };
}
const ids = (asks: readonly WaitingAsk[]) => inOrder(asks, NOW, ZONE).map((one) => one.ask.askId);
const why = (asks: readonly WaitingAsk[]) => inOrder(asks, NOW, ZONE).map((one) => one.because);

describe("who is next", () => {
  it("is who has had fewer whole kiln-weeks, whatever else", () => {
    const [much, little] = [ask("much", { kilnHours: 168, askedAt: weeksAgo(20), importance: 3 }), ask("little", { kilnHours: 167.9, neededBy: null, importance: 1 })];
    expect(ids([much, little])).toEqual(["little", "much"]);
    expect(why([much, little])).toEqual([
      "Before Piece much: Owner little has had 0 kiln-weeks in the last year, Owner much 1.",
      "After Piece little: Owner little has had 0 kiln-weeks in the last year, Owner much 1.",
    ]);
  });

  it("is, with as many kiln-weeks, who has waited more whole weeks", () => {
    const [long, short] = [ask("long", { askedAt: weeksAgo(2) }), ask("short", { askedAt: weeksAgo(1.99), importance: 3 })];
    expect(ids([short, long])).toEqual(["long", "short"]);
    expect(why([short, long])[1]).toBe("After Piece long: kiln-weeks are equal, and Piece long has waited 2 weeks, Piece short 1.");
  });

  it("is then whose piece is needed sooner, a date before none", () => {
    expect(ids([ask("none", { neededBy: null }), ask("later", { neededBy: day("2027-06-02") }), ask("sooner")])).toEqual(["sooner", "later", "none"]);
    expect(why([ask("none", { neededBy: null }), ask("sooner")])[0]).toContain("Piece sooner is needed by Tue 1 Jun, Piece none by no date");
  });

  it("is then what more hangs on, then who asked first, then always the same one", () => {
    expect(ids([ask("two"), ask("three", { importance: 3 })])).toEqual(["three", "two"]);
    expect(ids([ask("b", { askedAt: weeksAgo(1.1) }), ask("a", { askedAt: weeksAgo(1.2) })])).toEqual(["a", "b"]);
    expect(ids([ask("b"), ask("a")])).toEqual(["a", "b"]);
    expect(why([ask("alone")])).toEqual(["Nobody else is waiting."]);
  });

  it("is stated in as many lines as decide", () => {
    expect(RULE).toHaveLength(5);
  });
});

describe("the order", () => {
  const anyAsk = fc.record({
    kilnHours: fc.integer({ min: 0, max: 900 }), waited: fc.integer({ min: 0, max: 900 }), due: fc.option(fc.integer({ min: 0, max: 40 })), importance: fc.constantFrom(1, 2, 3),
  });
  const anyAsks = fc.array(anyAsk, { minLength: 1, maxLength: 9 }).map((all) =>
    all.map(({ kilnHours, waited, due, importance }, at) => ask(String(at), { kilnHours, importance, askedAt: NOW.subtract({ hours: waited }), neededBy: due === null ? null : day("2027-05-01").add({ days: due }) })),
  );
  const shuffled = anyAsks.chain((asks) => fc.tuple(fc.constant(asks), fc.shuffledSubarray(asks, { minLength: asks.length })));

  it("is total: it does not depend on how the asks arrive, and gives every ask one place and one sentence", () => {
    fc.assert(fc.property(shuffled, ([asks, mixed]) => {
      const placed = inOrder(mixed, NOW, ZONE);
      expect(placed.map(({ ask: { askId } }) => askId)).toEqual(ids(asks));
      expect(placed.map(({ place }) => place)).toEqual(asks.map((_, at) => at + 1));
      for (const { because } of placed) expect(because).toMatch(/^(Before|After|Nobody) .*\.$/);
    }));
  });

  it("of two asks never depends on a third", () => {
    fc.assert(fc.property(anyAsks, fc.nat(), (asks, which) => {
      const without = asks.filter((_, at) => at !== which % asks.length);
      expect(ids(without)).toEqual(ids(asks).filter((askId) => without.some((one) => one.askId === askId)));
    }));
  });

  it("never moves an ask up for kiln hours more, nor down for having waited longer, an earlier date or more that hangs on it", () => {
    const place = (asks: readonly WaitingAsk[], askId: string) => ids(asks).indexOf(askId);
    fc.assert(fc.property(anyAsks, fc.nat(), fc.integer({ min: 1, max: 500 }), (asks, which, more) => {
      const { askId } = asks[which % asks.length] ?? ask("0");
      const changed = (change: (one: WaitingAsk) => Partial<WaitingAsk>) => asks.map((one) => (one.askId === askId ? { ...one, ...change(one) } : one));
      const before = place(asks, askId);
      expect(place(changed((one) => ({ kilnHours: one.kilnHours + more })), askId)).toBeGreaterThanOrEqual(before);
      expect(place(changed((one) => ({ askedAt: one.askedAt.subtract({ hours: more }) })), askId)).toBeLessThanOrEqual(before);
      expect(place(changed((one) => ({ neededBy: (one.neededBy ?? day("2030-01-01")).subtract({ days: more }) })), askId)).toBeLessThanOrEqual(before);
      expect(place(changed((one) => ({ importance: Math.min(3, one.importance + 1) })), askId)).toBeLessThanOrEqual(before);
    }));
  });

  it("names what truly decided: who stands before has no more kiln-weeks, and the figure that is said is the first that differs", () => {
    fc.assert(fc.property(anyAsks, (asks) => {
      const placed = inOrder(asks, NOW, ZONE);
      for (const [at, here] of placed.entries()) {
        const before = placed[at - 1];
        if (before === undefined) continue;
        expect(before.kilnWeeks).toBeLessThanOrEqual(here.kilnWeeks);
        expect(here.because.includes("in the last year")).toBe(before.kilnWeeks < here.kilnWeeks);
        expect(here.because.includes("has waited")).toBe(before.kilnWeeks === here.kilnWeeks && before.weeksWaited > here.weeksWaited);
      }
    }));
  });
});
