import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import { showDate } from "@/lib/domain/time/show-time";
import { weekdaysProblem } from "@/tests/helpers/settling";

const said = (job: Partial<DayJob>, changes: Partial<DayProblem> = {}): string[] => dayProblemFaults(weekdaysProblem([job, {}], changes)).map(({ message }) => message);

describe("what cannot be settled in days at all", () => {
  it.each<[string, Partial<DayJob>, Partial<DayProblem>, string]>([
    ["an ask no kiln takes", { daysByClass: [0, 0] }, {}, "Job 0: no kiln can take it."],
    ["a firing longer than the calendar", { daysByClass: [27, 30] }, {}, "Job 0: it takes 27 days in kiln 0 from day 1 on, and the calendar ends on day 27."],
    ["more people than there ever are", { hands: 3 }, {}, "Job 0: it takes 3 people to load, and at most 2 are on duty on any day until day 27."],
    ["heating for longer than in the kiln", { daysByClass: [6, 4], heatingDays: 5 }, {}, "Job 0: it heats for 5 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["heating for parts of days", { heatingDays: 1.5 }, {}, "Job 0: it heats for 1.5 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["heating for less than nothing", { heatingDays: -1 }, {}, "Job 0: it heats for -1 days; as long as it is in the kiln is allowed, 0 to 4 whole days."],
    ["a mould that waits less long than it takes to be ready", { earliest: 6, latest: 5 }, {}, "Job 0: it must be loaded by day 5, and can be from day 6 on."],
    [
      "kilns that are never free long enough",
      { daysByClass: [9, 9] },
      { taken: [{ kiln: 0, from: 9, to: 20 }, { kiln: 1, from: 8, to: 28 }] },
      "Job 0: neither kiln 0 nor kiln 1 is free for 9 days at a stretch from day 1 on.",
    ],
    [
      "a mould that cannot wait until its kiln is free",
      { daysByClass: [0, 5], latest: 6 },
      { taken: [{ kiln: 1, from: 0, to: 7 }] },
      "Job 0: kiln 1, the only kiln that takes it, is not free for 5 days at a stretch from day 1 on when loaded by day 6.",
    ],
  ])("is said in one sentence: %s", (_what, job, changes, sentence) => {
    expect(said(job, changes)).toEqual([sentence]);
  });

  it("is said of people and steamers once, not of every run", () => {
    const nobody = Array.from({ length: 28 }, () => 0);
    expect(said({}, { handsOn: nobody, opsOn: nobody })).toEqual(["Nobody is there to load or unload job 0 and job 1 on any day from day 0 until day 27."]);
    expect(said({}, { steamsOn: nobody })).toEqual(["No steamer is free for job 0 and job 1 on any day from day 0 until day 27."]);
  });

  it("is said of a kiln that is taken twice at once", () => {
    expect(said({}, { taken: [{ kiln: 1, from: 2, to: 6 }, { kiln: 1, from: 5, to: 9 }] })).toEqual(["Kiln 1: it is taken from day 2 until day 6 and again from day 5 until day 9."]);
  });

  it("says days as they are said to people", () => {
    const dated = (job: Partial<DayJob>, changes: Partial<DayProblem> = {}) => dayProblemFaults(weekdaysProblem([job], changes), (day) => showDate(Temporal.PlainDate.from("2027-03-22").add({ days: day }))).map(({ message }) => message);
    expect(dated({ daysByClass: [27, 30] })).toEqual(["Job 0: it takes 27 days in kiln 0 from Tue 23 Mar on, and the calendar ends on Sun 18 Apr."]);
    expect(dated({ earliest: 6, latest: 5 })).toEqual(["Job 0: it must be loaded by Sat 27 Mar, and can be from Sun 28 Mar on."]);
    expect(dated({ steams: true, name: "Gull" }, { steamsOn: Array.from({ length: 28 }, () => 0) })).toEqual(["No steamer is free for Gull on any day from Mon 22 Mar until Sun 18 Apr."]);
    for (const sentence of [...dated({ hands: 3 }), ...dated({ daysByClass: [9, 9] }, { taken: [{ kiln: 0, from: 9, to: 20 }, { kiln: 1, from: 8, to: 28 }] })]) expect(sentence).not.toMatch(/day \d/);
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
