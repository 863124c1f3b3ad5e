import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";

const asked = { glass: "soda-lime-casting", body: { shape: "slab", thicknessMm: 50 }, surface: "fixed", startC: 600, program: [[0, 600], [4, 500], [154, 20]] };

function simulate(input: unknown) {
  return spawnSync(process.execPath, ["--import", "tsx", "lib/cli/simulate.ts", "-"], { encoding: "utf8", input: JSON.stringify(input) });
}

describe("the simulate command", () => {
  it("prints permanent stress, peak tension, the largest difference and a history", () => {
    const { status, stdout, stderr } = simulate(asked);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const answer = JSON.parse(stdout);
    expect(answer.permanent.centreMPa).toBeGreaterThan(0);
    expect(answer.permanent.surfaceMPa).toBeLessThan(0);
    expect(answer).toMatchObject({ peakTensionMPa: expect.any(Number), coreSurfaceMaxK: expect.any(Number) });
    expect(Object.keys(answer.history[0]).sort()).toEqual(["centreMPa", "coreC", "h", "kilnC", "surfaceC", "surfaceMPa"]);
    expect(answer.history.at(-1).coreC).toBeCloseTo(20, 0);
  });

  it.each([
    ["thickness 0", { ...asked, body: { shape: "slab", thicknessMm: 0 } }, "body.thicknessMm is 0 mm; it must be 0.5 to 1000 mm"],
    ["10 m", { ...asked, body: { shape: "ball", thicknessMm: 10_000 } }, "body.thicknessMm"],
    ["a program that runs backwards", { ...asked, program: [[0, 600], [5, 500], [4, 20]] }, "program.2.0 is 4 h"],
    ["no program", { ...asked, program: [] }, "program has 0 corners"],
    ["an unknown key", { ...asked, colour: "blue" }, "colour"],
    ["an unknown shape", { ...asked, body: { shape: "cone", thicknessMm: 5 } }, "body.shape"],
    ["no film", { ...asked, surface: { hWPerM2K: -1 } }, "surface.hWPerM2K"],
  ])("refuses %s with exit 2 and one line", (_what, input, words) => {
    const { status, stdout, stderr } = simulate(input);
    expect({ status, stdout, lines: stderr.trim().split("\n").length }).toEqual({ status: 2, stdout: "", lines: 1 });
    expect(stderr).toContain(words);
  });
});
