import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { countAsPlaced } from "@/lib/domain/settling/clash/put-by-hand";
import { inDays, seasonInSlots } from "@/lib/domain/settling/clash/season-slots";
import { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { dayCost, freeAgain, type DayJob, type DayPlacement, type DayProblem } from "@/lib/domain/settling/days/day-problem";
import { settleDays } from "@/lib/domain/settling/days/settle-days";
import { iterationBudget } from "@/lib/domain/settling/effort";
import { verifyDays } from "@/lib/domain/settling/verify";
import { anyHourPlan, areInTheWay, dayIn, isOut, placedFrom, smallSeason, standingPlace, type HourPlace } from "@/tests/helpers/season-hours";

const draws = fc.array(fc.record({ west: fc.boolean(), stays: fc.boolean(), day: fc.integer({ min: 0, max: 6 }), hour: fc.integer({ min: 0, max: 23 }) }), { minLength: 4, maxLength: 4 });
const parts = fc.constantFrom(1, 2, 4);
const AFTERWARDS = 28;

function settled(problem: DayProblem) {
  let bound = 0;
  const plan = settleDays(problem, 1, iterationBudget(8), { onBetter: () => undefined, onBound: (found) => void (bound = Math.max(bound, found)), bound: () => 0 });
  return { ...plan, bound };
}

describe("a season's bound in parts of days", () => {
  it("lets in every plan there is to the quarter hour, at its cost or less, and lies below it", () => {
    fc.assert(
      fc.property(smallSeason, draws, parts, (season, drawn, perDay) => {
        const { ground, clock } = season;
        const plan = anyHourPlan(season, drawn);
        fc.pre(plan.every(({ free }) => dayIn(clock, free) < ground.handsOn.length));
        const problem = seasonInSlots(season, perDay, "bound") as DayProblem;
        const slots = new DaySlots(clock, ground.handsOn.length + AFTERWARDS, perDay);
        const placements = plan.map(({ kilnId, loading }, job): DayPlacement => {
          const kiln = ground.kilns.findIndex((one) => one.kilnId === kilnId);
          const start = slots.slotOf(loading);
          return { job, kiln, start, end: freeAgain(problem, problem.jobs[job] as DayJob, kiln, start) ?? -1, steam: -1 };
        });
        expect(verifyDays(problem, placements)).toEqual([]);
        const places = new Map(plan.map(({ run, kilnId, closed, unloading }) => [run.runId, { kilnId, day: dayIn(clock, closed), until: dayIn(clock, unloading) }]));
        const { cost } = countAsPlaced(ground, places, "season", DEFAULT_WEIGHTS);
        expect(dayCost(problem, placements)).toBeLessThanOrEqual(cost + 1e-9);
        expect(settled(problem).bound).toBeLessThanOrEqual(cost + 1e-9);
      }),
      { numRuns: 40, endOnFailure: true },
    );
  }, 60_000);

  it("is not worked out where a kiln could be loaded twice within one part of a day", () => {
    const [season] = fc.sample(smallSeason, { numRuns: 1, seed: 5 });
    if (season === undefined) throw new Error("no season");
    const hasty = { ...season, clock: { ...season.clock, runs: new Map([...season.clock.runs].map(([id, one]) => [id, { ...one, inKiln: { west: { cools: 2, heats: 1 } } }])) } };
    expect(seasonInSlots(season, 1, "bound")).toBeDefined();
    expect(seasonInSlots(hasty, 1, "bound")).toBeUndefined();
  });
});

describe("a season's plan in parts of days", () => {
  it("can be carried out to the quarter hour, each run from its part of the day on and unloaded on the day it says, or sooner", () => {
    fc.assert(
      fc.property(smallSeason, parts, (season, perDay) => {
        const { ground, clock } = season;
        const problem = seasonInSlots(season, perDay, "plan") as DayProblem;
        const { placements, leftOut, cost } = settled(problem);
        fc.pre(leftOut === 0);
        expect(verifyDays(problem, placements, cost)).toEqual([]);
        const slots = new DaySlots(clock, ground.handsOn.length + AFTERWARDS, perDay);
        const places = placements.map(({ job, kiln, start }): HourPlace => {
          const [run, kilnId] = [ground.runs[job] as MovableRun, ground.kilns[kiln]?.kilnId ?? ""];
          const stays = run.standing?.kilnId === kilnId && run.standing.day === Math.floor(start / perDay);
          return (stays ? standingPlace(season, run) : undefined) ?? placedFrom(season, run, kilnId, slots.start[start] ?? NaN);
        });
        places.forEach((place, i) => {
          expect(isOut(season, place)).toBe(false);
          expect(places.slice(i + 1).some((other) => areInTheWay(season, place, other))).toBe(false);
        });
        const days = inDays(problem, placements);
        for (const { job, start, end } of days) {
          const place = places.find(({ run }) => run === ground.runs[job]);
          const unloaded = dayIn(clock, place?.unloading ?? Infinity);
          expect(dayIn(clock, place?.closed ?? 0)).toBe(start);
          // After what is booked on its own kiln, it is taken to be held as long as that.
          if (place?.run.standing?.kilnId === place?.kilnId) expect(unloaded).toBeLessThanOrEqual(end);
          else expect(unloaded).toBe(end);
        }
      }),
      { numRuns: 40, endOnFailure: true },
    );
  }, 60_000);
});
