import { describe, expect, it } from "vitest";
import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import { weekdaysProblem } from "@/tests/helpers/settling";

const said = (job: Partial<DayJob>, changes: Partial<DayProblem> = {}): string[] => dayProblemFaults(weekdaysProblem([job, {}], changes)).map(({ message }) => message);

describe("what cannot be settled in days at all", () => {
  it.each<[string, Partial<DayJob>, Partial<DayProblem>, string]>([
    ["an ask no kiln takes", { daysByClass: [0, 0] }, {}, "Job 0: no kiln can take it."],
    ["a firing longer than the calendar", { daysByClass: [27, 30] }, {}, "Job 0: it takes 27 days from day 1 on, and the calendar ends on day 27."],
    ["more people than there ever are", { hands: 3 }, {}, "Job 0: it takes 3 people to load, and at most 2 are on duty."],
    ["heating for longer than in the kiln", { daysByClass: [6, 4], heatingDays: 5 }, {}, "Job 0: it heats for 5 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["heating for parts of days", { heatingDays: 1.5 }, {}, "Job 0: it heats for 1.5 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["heating for less than nothing", { heatingDays: -1 }, {}, "Job 0: it heats for -1 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["a mould that waits less long than it takes to be ready", { earliest: 6, latest: 5 }, {}, "Job 0: it must be loaded by day 5, and can be from day 6 on."],
    [
      "kilns that are never free long enough",
      { daysByClass: [9, 9] },
      { taken: [{ kiln: 0, from: 9, to: 20 }, { kiln: 1, from: 8, to: 28 }] },
      "Job 0: no kiln that takes it is free for 9 days at a stretch from day 1 on.",
    ],
    [
      "a mould that cannot wait until its kiln is free",
      { daysByClass: [0, 5], latest: 6 },
      { taken: [{ kiln: 1, from: 0, to: 7 }] },
      "Job 0: no kiln that takes it is free for 5 days at a stretch from day 1 on when loaded by day 6.",
    ],
  ])("is said in one sentence: %s", (_what, job, changes, sentence) => {
    expect(said(job, changes)).toEqual([sentence]);
  });

  it("is said of people and steamers once, not of every run", () => {
    const nobody = Array.from({ length: 28 }, () => 0);
    expect(said({}, { handsOn: nobody, opsOn: nobody })).toEqual(["Nobody loads or unloads on any day, so nothing can be placed."]);
    expect(said({}, { steamsOn: nobody })).toEqual(["No steamer is free on any day, so no wax can be steamed out."]);
  });

  it("is said of a kiln that is taken twice at once", () => {
    expect(said({}, { taken: [{ kiln: 1, from: 2, to: 6 }, { kiln: 1, from: 5, to: 9 }] })).toEqual(["Kiln 1: its busy days 2 to 6 and 5 to 9 overlap."]);
  });

  it("names the field, the value and what would be allowed", () => {
    expect(dayProblemFaults(weekdaysProblem([{}, { heatingDays: 9 }]))).toEqual([expect.objectContaining({ field: "jobs.1.heatingDays", value: 9, allowed: "0 to 4 whole days" })]);
  });

  it.each<[string, Partial<DayJob>, Partial<DayProblem>]>([
    ["heating for as long as in the shortest kiln", { daysByClass: [6, 4], heatingDays: 4 }, {}],
    ["not heating at all", { heatingDays: 0 }, {}],
    ["a firing that ends on the last day", { daysByClass: [26, 30] }, {}],
    ["a mould that is ready on the last day it waits", { earliest: 4, latest: 4 }, {}],
    ["a kiln that is free just long enough", { daysByClass: [8, 0] }, { taken: [{ kiln: 0, from: 9, to: 20 }] }],
  ])("does not count what is just possible: %s", (_what, job, changes) => {
    expect(said(job, changes)).toEqual([]);
  });
});
