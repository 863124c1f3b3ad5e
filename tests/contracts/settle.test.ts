import { describe, expect, it } from "vitest";
import { readSettleRequest } from "@/lib/contracts/settle";

const hours = {
  kilns: [{ id: "a" }, { id: "b" }],
  asks: [{ id: "x", releaseH: 0, dueH: 50, weight: 2, hoursByKiln: { a: 40, b: 30 } }],
  fixed: [{ kiln: "a", fromH: 0, toH: 10 }, { kiln: "a", fromH: 10, toH: 20 }],
  budgetSeconds: 5,
};
const days = { m: 2, n: 1, C: 2, T: 60, classOf: [0, 1], kilnsOf: [[0], [1]], H: 2, S: 1, W: 5, busy: [{ k: 0, s: 0, e: 4, unload: true }], jobs: [{ p: 7, r: 0, d: 20, w: 2, cls: [0, 1] }] };

const messages = (input: unknown): string[] => {
  const read = readSettleRequest(input);
  return read.ok ? [] : read.problems.map((problem) => problem.message);
};
const withAsk = (changes: object): object => ({ ...hours, asks: [{ ...hours.asks[0], ...changes }] });
const withDays = (changes: object): object => ({ days: { ...days, ...changes }, budgetSeconds: 5 });
const withJob = (changes: object): object => withDays({ jobs: [{ ...days.jobs[0], ...changes }] });

describe("an instance in hours", () => {
  it("is read with a kiln that does not fit as 0 hours, and touching fixed times", () => {
    const read = readSettleRequest(withAsk({ hoursByKiln: { b: 30 } }));
    expect(read).toMatchObject({ ok: true, value: { asked: { kind: "hours", problem: { asks: [{ hours: [0, 30] }] } }, limits: { seed: 1, iterations: null } } });
  });

  it.each([
    ["an unknown key", { ...hours, colour: 1 }, "colour is not a known field"],
    ["an unknown key of an ask", withAsk({ color: 1 }), "asks.0.color"],
    ["hours of 0", withAsk({ hoursByKiln: { a: 0 } }), "Ask x: hours on kiln a is 0; it must be a whole number of hours, 1 to 8760."],
    ["hours beyond any firing", withAsk({ hoursByKiln: { a: 8761 } }), "Ask x: hours on kiln a is 8761"],
    ["half hours", withAsk({ hoursByKiln: { a: 1.5 } }), "Ask x: hours on kiln a is 1.5"],
    ["a negative release", withAsk({ releaseH: -1 }), "Ask x: releaseH is -1"],
    ["a release beyond the calendar", withAsk({ releaseH: 1_000_001 }), "Ask x: releaseH is 1000001"],
    ["a negative weight", withAsk({ weight: -2 }), "Ask x: weight is -2; it must be 0 to 1000000."],
    ["a weight that is no number", withAsk({ weight: NaN }), "asks.0.weight"],
    ["a date that is no number", withAsk({ dueH: null }), "asks.0.dueH is null; it must be a number."],
    ["an ask no kiln takes", withAsk({ hoursByKiln: {} }), "Ask x: no kiln can take it; hoursByKiln must name at least one."],
    ["a kiln there is not", withAsk({ hoursByKiln: { c: 5 } }), "Ask x: there is no kiln c."],
    ["no kiln", { ...hours, kilns: [], fixed: [], asks: [] }, "There is no kiln; name at least one."],
    ["a kiln named twice", { ...hours, kilns: [{ id: "a" }, { id: "b" }, { id: "a" }] }, "Kiln a is named twice."],
    ["an ask named twice", { ...hours, asks: [hours.asks[0], hours.asks[0]] }, "Ask x is named twice."],
    ["fixed times that overlap", { ...hours, fixed: [{ kiln: "a", fromH: 0, toH: 10 }, { kiln: "a", fromH: 9, toH: 12 }] }, "Kiln a: fixed times 0 to 10 and 9 to 12 overlap."],
    ["a fixed time that ends as it starts", { ...hours, fixed: [{ kiln: "b", fromH: 5, toH: 5 }] }, "Fixed time on kiln b: toH is 5; it must be later than fromH, which is 5."],
    ["a fixed time on no kiln", { ...hours, fixed: [{ kiln: "c", fromH: 0, toH: 5 }] }, "Fixed time on kiln c: there is no such kiln."],
    ["no budget", { ...hours, budgetSeconds: 0 }, "budgetSeconds is 0; it must be more than 0."],
    ["a negative budget", { ...hours, budgetSeconds: -1 }, "budgetSeconds is -1"],
    ["a missing budget", { kilns: hours.kilns, asks: hours.asks }, "budgetSeconds is missing"],
    ["no iterations", { ...hours, iterations: 0 }, "iterations is 0; it must be at least 1."],
    ["no object", [1], "The input"],
  ])("refuses %s in one sentence", (_what, input, words) => {
    expect(messages(input)).toEqual([expect.stringContaining(words)]);
  });

  it("is not fooled by names every object has", () => {
    expect(messages({ ...hours, kilns: [...hours.kilns, { id: "constructor" }] })).toEqual([]);
    expect(messages(withAsk({ hoursByKiln: { toString: 3 } }))).toEqual(["Ask x: there is no kiln toString."]);
  });

  it("names every fault at once", () => {
    expect(messages(withAsk({ releaseH: -1, weight: -1 }))).toHaveLength(2);
  });
});

describe("an instance in days", () => {
  it("is read with weekends free and the day of an unloading counted", () => {
    const read = readSettleRequest(withDays({}));
    if (!read.ok || read.value.asked.kind !== "days") throw new Error("It must be read.");
    const { problem } = read.value.asked;
    expect(problem.opsOn.slice(0, 9)).toEqual([2, 2, 2, 2, 1, 0, 0, 2, 2]);
    expect(problem.jobs[0]).toMatchObject({ daysByClass: [7, 7], earliest: 1, due: 20 });
  });

  it("takes running firings whose unloading is more than a day allows", () => {
    const busy = [{ k: 0, s: 0, e: 4, unload: true }, { k: 1, s: 0, e: 4, unload: true }];
    const read = readSettleRequest(withDays({ busy, H: 1 }));
    expect(read).toMatchObject({ ok: true });
  });

  it.each([
    ["an unknown key", withDays({ colour: 1 }), "days.colour"],
    ["nobody to load", withDays({ H: 0 }), "days.H is 0; it must be at least 1."],
    ["no steamer", withDays({ S: 0 }), "No steamer is free for job 0 on any day from day 0 until day 60."],
    ["0 days", withJob({ p: 0 }), "days.jobs.0.p is 0; it must be at least 1."],
    ["days beyond the calendar", withJob({ p: 70 }), "Job 0: it takes 70 days in kiln 0 from day 1 on, and the calendar ends on day 60."],
    ["a job no kiln takes", withJob({ cls: [] }), "Job 0: no kiln can take it."],
    ["a class there is not", withJob({ cls: [2] }), "Job 0: there is no class 2"],
    ["a negative weight", withJob({ w: -1 }), "days.jobs.0.w is -1"],
    ["a booking on another class", withJob({ bk: { kiln: 1, cls: 0, s: 3 } }), "Job 0: its booking names kiln 1 of class 0"],
    ["busy days that overlap", withDays({ busy: [{ k: 1, s: 0, e: 5 }, { k: 1, s: 4, e: 9 }] }), "Kiln 1: it is taken from day 0 until day 5 and again from day 4 until day 9."],
    ["a busy time that ends as it starts", withDays({ busy: [{ k: 1, s: 4, e: 4 }] }), "Kiln 1: a busy time ends on day 4"],
    ["a busy kiln there is not", withDays({ busy: [{ k: 2, s: 0, e: 4 }] }), "A busy time is of kiln 2"],
    ["other staffed days", withDays({ staffed: "always" }), 'days.staffed is "always"'],
    ["another number of jobs", withDays({ n: 3 }), "days.jobs has 1 entries; n is 3."],
  ])("refuses %s in one sentence", (_what, input, words) => {
    expect(messages(input)).toEqual([expect.stringContaining(words)]);
  });
});
