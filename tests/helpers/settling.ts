import fc from "fast-check";
import { dayCost, type DayJob, type DayPlacement, type DayProblem } from "@/lib/domain/settling/days/day-problem";
import { hourCost, type HourAsk, type HourPlacement, type HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { verifyDays } from "@/lib/domain/settling/verify";
import { verifyHours } from "@/lib/domain/settling/verify-hours";

/** Small problems in hours: two kilns, up to five asks, a stretch that is taken. */
export const smallHours: fc.Arbitrary<HourProblem> = fc.record({
  asks: fc.array(
    fc.record({ releaseH: fc.integer({ min: 0, max: 12 }), dueH: fc.integer({ min: -3, max: 30 }), weight: fc.integer({ min: 0, max: 8 }), a: fc.integer({ min: 0, max: 9 }), b: fc.integer({ min: 1, max: 9 }) }),
    { minLength: 1, maxLength: 5 },
  ),
  takenFrom: fc.integer({ min: 0, max: 10 }),
  takenFor: fc.integer({ min: 1, max: 6 }),
}).map(({ asks, takenFrom, takenFor }) => ({
  kilns: ["a", "b"],
  asks: asks.map(({ a, b, ...ask }, i): HourAsk => ({ id: `ask ${i}`, ...ask, hours: [a, b] })),
  taken: [[{ fromH: takenFrom, toH: takenFrom + takenFor }], []],
}));

/** The least cost there is, by trying every order on every kiln. */
export function leastHourCost(problem: HourProblem): number {
  let least = Infinity;
  const place = (left: readonly number[], free: readonly number[], done: readonly HourPlacement[]): void => {
    if (hourCost(problem, done) >= least) return;
    if (left.length === 0) {
      if (verifyHours(problem, done).length > 0) throw new Error("An enumerated plan does not stand.");
      least = hourCost(problem, done);
    }
    for (const ask of left) {
      problem.kilns.forEach((_, kiln) => {
        const { hours, releaseH } = problem.asks[ask] as HourAsk;
        const length = hours[kiln] ?? 0;
        if (length === 0) return;
        let fromH = Math.max(free[kiln] ?? 0, releaseH);
        for (const stretch of problem.taken[kiln] ?? []) if (fromH < stretch.toH && stretch.fromH < fromH + length) fromH = stretch.toH;
        const toH = fromH + length;
        place(left.filter((other) => other !== ask), free.map((end, i) => (i === kiln ? toH : end)), [...done, { ask, kiln, fromH, toH }]);
      });
    }
  };
  place(problem.asks.map((_, ask) => ask), problem.kilns.map(() => 0), []);
  return least;
}

export const STAFFED_ON_WEEKDAYS = (day: number): boolean => day % 7 < 5;

/** A problem in days with weekends free, two kilns of two classes and one steamer; jobs as given. */
export function weekdaysProblem(jobs: readonly Partial<DayJob>[], changes: Partial<DayProblem> = {}): DayProblem {
  const horizon = changes.horizon ?? 28;
  const on = (amount: number): number[] => Array.from({ length: horizon }, (_, day) => (STAFFED_ON_WEEKDAYS(day) ? amount : 0));
  return {
    kilns: ["kiln 0", "kiln 1"],
    classOf: [0, 1],
    powerKw: [9, 9],
    horizon,
    handsOn: on(2),
    opsOn: on(2),
    steamsOn: on(1),
    steamWindow: 5,
    taken: [],
    powerLeftKw: null,
    jobs: jobs.map((job, i) => ({ name: `job ${i}`, daysByClass: [4, 4], earliest: 1, latest: null, due: 10, weight: 1, steams: true, standing: null, hands: 1, heatingDays: 1, ...job })),
    ...changes,
  };
}

const smallJob: fc.Arbitrary<Partial<DayJob>> = fc.record({
  days: fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 1, max: 6 })),
  earliest: fc.integer({ min: 1, max: 6 }),
  due: fc.integer({ min: 3, max: 16 }),
  weight: fc.integer({ min: 0, max: 8 }),
  steams: fc.boolean(),
  heatingDays: fc.constantFrom(1, 2),
  standing: fc.option(fc.record({ kiln: fc.constant(1), start: fc.integer({ min: 1, max: 9 }), fix: fc.constantFrom(0, 4, 12), slope: fc.constantFrom(0, 0.4, 1.2), otherClass: fc.constantFrom(0, 3) })),
}).map(({ days, heatingDays, ...job }) => ({ ...job, daysByClass: days, heatingDays: Math.min(heatingDays, ...days.filter((one) => one > 0)) }));

export const smallDays: fc.Arbitrary<DayProblem> = fc.record({
  jobs: fc.array(smallJob, { minLength: 1, maxLength: 3 }),
  ops: fc.constantFrom(1, 2),
  limited: fc.boolean(),
  steamWindow: fc.constantFrom(1, 3, 5),
  takenFrom: fc.integer({ min: 0, max: 8 }),
}).map(({ jobs, ops, limited, steamWindow, takenFrom }) => {
  const problem = weekdaysProblem(jobs, { steamWindow, taken: [{ kiln: 0, from: takenFrom, to: takenFrom + 4 }] });
  return { ...problem, opsOn: problem.opsOn.map((amount) => Math.min(amount, ops)), powerLeftKw: limited ? problem.handsOn.map(() => 12) : null };
});

/** The least cost there is, by trying every kiln, start and steamer day; Infinity when nothing stands. */
export function leastDayCost(problem: DayProblem): number {
  let least = Infinity;
  const place = (job: number, done: readonly DayPlacement[]): void => {
    if (dayCost(problem, done) >= least) return;
    if (job === problem.jobs.length) {
      if (stands(problem, done)) least = dayCost(problem, done);
      return;
    }
    const { daysByClass, earliest, hands } = problem.jobs[job] as DayJob;
    problem.classOf.forEach((cls, kiln) => {
      const days = daysByClass[cls] ?? 0;
      for (let start = earliest; days > 0 && start + days < problem.horizon; start++) {
        let end = start + days;
        while (end < problem.horizon && (problem.handsOn[end] ?? 0) < hands) end++;
        if ((problem.handsOn[start] ?? 0) >= hands && end < problem.horizon) place(job + 1, [...done, { job, kiln, start, end, steam: -1 }]);
      }
    });
  };
  place(0, []);
  return least;
}

/** True when steamer days can be found with which the verifier has nothing to say. */
function stands(problem: DayProblem, placements: readonly DayPlacement[], from = 0): boolean {
  const next = placements.findIndex(({ job }, i) => i >= from && (problem.jobs[job] as DayJob).steams);
  if (next < 0) return verifyDays(problem, placements).length === 0;
  const { start } = placements[next] as DayPlacement;
  return Array.from({ length: problem.steamWindow }, (_, i) => start - 1 - i).some((steam) => {
    const taken = placements.filter((one, i) => i < next && one.steam === steam).length;
    if (steam < 0 || taken >= (problem.steamsOn[steam] ?? 0)) return false;
    return stands(problem, placements.map((one, i) => (i === next ? { ...one, steam } : one)), next + 1);
  });
}
