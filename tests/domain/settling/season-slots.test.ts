import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { countAsPlaced } from "@/lib/domain/settling/clash/put-by-hand";
import { inDays, seasonInSlots, type ClockedGround } from "@/lib/domain/settling/clash/season-slots";
import { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import { withStandingRoom } from "@/lib/domain/settling/clash/standing-room";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { dayCost, freeAgain, type DayJob, type DayPlacement, type DayProblem } from "@/lib/domain/settling/days/day-problem";
import { settleDays } from "@/lib/domain/settling/days/settle-days";
import { iterationBudget } from "@/lib/domain/settling/effort";
import { verifyDays } from "@/lib/domain/settling/verify";
import { anyHourPlan, areInTheWay, dayIn, isOut, placedFrom, smallSeason, standingPlace, type HourPlace } from "@/tests/helpers/season-hours";

const draws = fc.array(fc.record({ west: fc.boolean(), stays: fc.boolean(), day: fc.integer({ min: 0, max: 6 }), hour: fc.integer({ min: 0, max: 23 }) }), { minLength: 4, maxLength: 4 });
const parts = fc.constantFrom(1, 2, 4);
const AFTERWARDS = 28;

/** The same with nothing booked. */
function asked({ ground, clock }: ClockedGround): ClockedGround {
  return {
    ground: { ...ground, runs: ground.runs.map((run) => ({ ...run, standing: null })) },
    clock: { ...clock, runs: new Map([...clock.runs].map(([id, one]) => [id, { ...one, standing: null }])) },
  };
}

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
  it("can be carried out to the quarter hour, each run from its part of the day on and unloaded on the day it says", () => {
    fc.assert(
      fc.property(smallSeason.map(asked), parts, (season, perDay) => {
        const { ground, clock } = season;
        const problem = seasonInSlots(season, perDay, "plan") as DayProblem;
        const { placements, leftOut, cost } = settled(problem);
        fc.pre(leftOut === 0);
        expect(verifyDays(problem, placements, cost)).toEqual([]);
        const slots = new DaySlots(clock, ground.handsOn.length + AFTERWARDS, perDay);
        const places = placements.map(({ job, kiln, start }): HourPlace => placedFrom(season, ground.runs[job] as MovableRun, ground.kilns[kiln]?.kilnId ?? "", slots.start[start] ?? NaN));
        places.forEach((place, i) => {
          expect(isOut(season, place)).toBe(false);
          expect(places.slice(i + 1).some((other) => areInTheWay(season, place, other))).toBe(false);
        });
        const days = inDays(problem, placements);
        for (const { job, start, end } of days) {
          const place = places.find(({ run }) => run === ground.runs[job]);
          expect([dayIn(clock, place?.closed ?? 0), dayIn(clock, place?.unloading ?? 0)]).toEqual([start, end]);
        }
      }),
      { numRuns: 40, endOnFailure: true },
    );
  }, 60_000);

  it("lets what stands without a clash stand as it does, close behind each other too", () => {
    fc.assert(
      fc.property(smallSeason, parts, (season, perDay) => {
        const { ground, clock } = season;
        const standing = ground.runs.map((run) => standingPlace(season, run)).filter((place) => place !== undefined);
        const within = standing.filter(({ free }) => dayIn(clock, free) < ground.handsOn.length);
        const alone = within.filter((place) => !isOut(season, place) && standing.every((other) => other === place || !areInTheWay(season, place, other)));
        const own = withStandingRoom({ ...ground, runs: alone.map(({ run }) => run) }, { lifts: new Set(), power: new Set() });
        const stands = seasonInSlots({ ground: own, clock }, perDay, "plan") as DayProblem;
        const placements = stands.jobs.map((one, job): DayPlacement => {
          const { kiln, start } = one.standing ?? { kiln: 0, start: 0 };
          return { job, kiln, start, end: freeAgain(stands, one, kiln, start) ?? -1, steam: -1 };
        });
        expect([verifyDays(stands, placements), placements.filter(({ end }) => end < 0)]).toEqual([[], []]);
      }),
      { numRuns: 100, endOnFailure: true },
    );
  }, 60_000);
});
