import fc from "fast-check";
import type { ClashGround, MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { settleClash, type ClashOptions } from "@/lib/domain/settling/clash/settle-clash";
import { iterationBudget } from "@/lib/domain/settling/effort";

export const sayDay = (day: number): string => `day ${day}`;

/** An ask of Ida's for five days on either kiln, from day 1, needed by day 10; changed as given. */
export function run(runId: string, changes: Partial<MovableRun> = {}): MovableRun {
  return {
    runId,
    title: `Ida's ${runId}`,
    memberName: "Ida",
    firmness: (changes.standing ?? null) === null ? "ask" : "booked",
    standing: null,
    daysByKiln: { west: 5, east: 5 },
    earliest: 1,
    latest: null,
    neededBy: 10,
    importance: 1,
    steams: false,
    hands: 1,
    heatingDays: 1,
    ...changes,
  };
}

/** Two kilns, two people from Monday to Friday, four weeks. */
export function clashGround(runs: readonly MovableRun[], changes: Partial<ClashGround> = {}): ClashGround {
  const on = (amount: number): number[] => Array.from({ length: 28 }, (_, day) => (day % 7 < 5 ? amount : 0));
  return {
    kilns: [{ kilnId: "west", name: "West kiln", powerKw: 9 }, { kilnId: "east", name: "East kiln", powerKw: 9 }],
    runs,
    taken: [],
    handsOn: on(2),
    liftsOn: on(4),
    steamersOn: on(1),
    steamWindow: 5,
    powerLeftKw: null,
    ...changes,
  };
}

export function settled(ground: ClashGround, options: Partial<ClashOptions> = {}, iterations = 150) {
  return settleClash(ground, { budget: () => iterationBudget(iterations), sayDay, ...options });
}

const smallRun: fc.Arbitrary<Omit<MovableRun, "runId" | "title" | "memberName" | "firmness">> = fc.record({
  standing: fc.option(fc.record({ kilnId: fc.constantFrom("west", "east"), day: fc.constantFrom(1, 2, 4, 8) })),
  daysByKiln: fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 1, max: 6 })).map(([west, east]) => ({ west, east })),
  earliest: fc.integer({ min: 1, max: 4 }),
  latest: fc.constant(null),
  neededBy: fc.option(fc.integer({ min: 3, max: 16 })),
  importance: fc.integer({ min: 1, max: 3 }),
  steams: fc.boolean(),
  hands: fc.constantFrom(1, 2),
  heatingDays: fc.constantFrom(1, 2),
}).map((one) => ({ ...one, heatingDays: Math.min(one.heatingDays, ...Object.values(one.daysByKiln).filter((days) => days > 0)) }));

/** Small clashes: up to three runs, some standing, one kiln taken for a while by a started firing, little power at times. */
export const smallClash: fc.Arbitrary<ClashGround> = fc
  .record({ runs: fc.array(smallRun, { minLength: 1, maxLength: 3 }), from: fc.integer({ min: 0, max: 8 }), limited: fc.boolean() })
  .map(({ runs, from, limited }) =>
    clashGround(
      runs.map((one, i) => run(`piece ${i}`, { ...one, memberName: i === 0 ? "Ida" : "Jonas" })),
      { taken: [{ kilnId: "west", from, to: from + 5, holder: "a started firing" }], ...(limited ? { powerLeftKw: Array.from({ length: 28 }, () => 12) } : {}) },
    ),
  );
