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

  it("gives finite stress from far above the transition, for every shape", () => {
    for (const shape of ["slab", "cylinder", "ball"]) {
      const { stdout } = simulate({ ...asked, body: { shape, thicknessMm: 50 }, startC: 1200, program: [[0, 1200], [100, 20]] });
      const { permanent, peakTensionMPa } = JSON.parse(stdout);
      expect(permanent.centreMPa).toBeGreaterThan(0);
      expect(permanent.surfaceMPa).toBeLessThan(0);
      expect(peakTensionMPa).toBeGreaterThanOrEqual(permanent.centreMPa);
    }
  });

  it("says at which rate a program that ends warm was followed on, and nothing of one that ends at the room", () => {
    const ended = (program: unknown) => JSON.parse(simulate({ ...asked, program }).stdout).warnings;
    expect(ended([[0, 600], [40, 200]])).toEqual(["The program ends at 200 °C; it was followed on to 20 °C at 10 K/h."]);
    expect(ended([[0, 600], [40, 200], [50, 200]])).toEqual(["The program ends at 200 °C; it was followed on to 20 °C at 60 K/h."]);
    expect(ended(asked.program)).toEqual([]);
  });

  it("says what it takes for a glass that starts too cold to be at equilibrium", () => {
    const { stdout } = simulate({ ...asked, startC: 20, program: [[0, 20], [10, 600], [160, 20]] });
    expect(JSON.parse(stdout).warnings).toEqual([expect.stringMatching(/^No glass comes to equilibrium at 20 °C; .* annealed at 4\d\d °C\.$/)]);
    expect(JSON.parse(stdout).permanent.centreMPa).toBeGreaterThan(0.1);
  });

  it.each([
    ["thickness 0", { ...asked, body: { shape: "slab", thicknessMm: 0 } }, "body.thicknessMm is 0 mm; it must be 0.5 to 1000 mm"],
    ["a negative thickness", { ...asked, body: { shape: "slab", thicknessMm: -5 } }, "body.thicknessMm is -5 mm"],
    ["a thickness that is no number", { ...asked, body: { shape: "slab", thicknessMm: NaN } }, "body.thicknessMm"],
    ["a time that is no number", { ...asked, program: [[0, 600], [null, 20]] }, "program.1.0"],
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
