import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";

const hours = {
  kilns: [{ id: "a" }, { id: "b" }],
  asks: [
    { id: "x", releaseH: 0, dueH: 100, weight: 2, hoursByKiln: { a: 120, b: 90 } },
    { id: "y", releaseH: 10, dueH: 50, weight: 1, hoursByKiln: { b: 60 } },
    { id: "z", releaseH: 0, dueH: 200, weight: 3, hoursByKiln: { a: 150, b: 150 } },
  ],
  fixed: [{ kiln: "a", fromH: 0, toH: 24 }],
  budgetSeconds: 20,
  iterations: 200,
};
const days = {
  m: 2, n: 3, C: 2, T: 90, classOf: [0, 1], kilnsOf: [[0], [1]], H: 2, S: 1, W: 5,
  busy: [{ k: 0, s: 0, e: 4, unload: true }],
  jobs: [
    { p: 7, r: 0, d: 9, w: 2, cls: [0, 1] },
    { p: 12, r: 2, d: 20, w: 4, cls: [0], bk: { kiln: 0, cls: 0, s: 4 }, fix: 4, slope: 0.4, clsMove: 3 },
    { p: 5, r: 0, d: 8, w: 1, cls: [1] },
  ],
};

function settle(input: unknown) {
  return spawnSync(process.execPath, ["--import", "tsx", "lib/cli/settle.ts", "-"], { encoding: "utf8", input: typeof input === "string" ? input : JSON.stringify(input) });
}

describe("the settle command", () => {
  it("places every ask in hours, and repeats with seed and iterations", () => {
    const { status, stdout, stderr } = settle(hours);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const answer = JSON.parse(stdout);
    expect(answer).toMatchObject({ cost: 100, seconds: expect.any(Number) });
    expect(answer.bound).toBeLessThanOrEqual(100);
    expect(answer.placements.map(({ ask }: { ask: string }) => ask).sort()).toEqual(["x", "y", "z"]);
    expect(Object.keys(answer.placements[0])).toEqual(["ask", "kiln", "fromH", "toH"]);
    expect(JSON.parse(settle(hours).stdout).placements).toEqual(answer.placements);
  }, 60_000);

  it("gives one plan of two searches where time counts", () => {
    const { iterations: _none, ...timed } = hours;
    const answer = JSON.parse(settle({ ...timed, budgetSeconds: 4 }).stdout);
    expect(answer.cost).toBe(100);
    expect(answer.placements).toHaveLength(3);
  }, 60_000);

  it("places every job in days, with a steamer day", () => {
    const { status, stdout, stderr } = settle({ days, budgetSeconds: 20, iterations: 200 });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const answer = JSON.parse(stdout);
    expect(answer.placements).toHaveLength(3);
    for (const { s, e, steam } of answer.placements) {
      expect(steam).toBeLessThan(s);
      expect(s).toBeLessThan(e);
    }
    expect(answer.bound).toBeLessThanOrEqual(answer.cost);
  }, 60_000);

  it("says so when the time was over before all of many jobs had a place", () => {
    const many = { ...days, n: 400, T: 6_000, jobs: Array.from({ length: 400 }, () => ({ p: 7, r: 0, d: 9, w: 2, cls: [0, 1] })) };
    const { status, stdout, stderr } = settle({ days: many, budgetSeconds: 0.01 });
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toBe("Nothing was found within 0.01 s: 400 of 400 jobs had no place yet when they were over. Allow more.\n");
  }, 60_000);

  it("has nothing to place without asks", () => {
    expect(JSON.parse(settle({ ...hours, asks: [] }).stdout)).toMatchObject({ placements: [], cost: 0, bound: 0 });
  }, 60_000);

  it.each([
    ["no JSON", "{", "Standard input is not JSON", 1],
    ["an unknown key", { ...hours, colour: "blue" }, "colour is not a known field", 1],
    ["hours of 0", { ...hours, asks: [{ ...hours.asks[0], hoursByKiln: { a: 0 } }] }, "Ask x: hours on kiln a is 0", 1],
    ["a calendar too short for all", { days: { ...days, T: 20, jobs: days.jobs.map((job) => ({ ...job, p: 12, cls: [0] })) }, budgetSeconds: 1, iterations: 20 }, "on a calendar that ends on day 20.", 2],
  ])("refuses %s with exit 2 and a line for each fault", (_what, input, words, lines) => {
    const { status, stdout, stderr } = settle(input);
    expect({ status, stdout, lines: stderr.trim().split("\n").length }).toEqual({ status: 2, stdout: "", lines });
    expect(stderr).toContain(words);
  }, 60_000);
});
