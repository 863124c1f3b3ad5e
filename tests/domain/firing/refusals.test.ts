import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { meshBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { brickMesh } from "../shape/sample-meshes";
import { BRICK, KILN, planned, problemsOf, slab } from "./casting-builder";

const piece = (sizeMm: readonly number[]): CastingInput => ({ ...BRICK, piece: { shape: "brick", sizeMm } });
const wall = (wallMm: number): CastingInput => ({ ...BRICK, mould: { wallMm, plasterSilicaWater: [1, 1, 1] } });
const fields = (input: CastingInput) => problemsOf(input).map((problem) => problem.field);

function cube(sideM: number): MeshBody {
  const body = meshBody(brickMesh(sideM, sideM, sideM), 16);
  if (!body.ok) throw new Error(body.problems[0].message);
  return body.value;
}

describe("numbers out of range are refused by field, value and range", () => {
  it.each([
    ["a length of 0", piece([0, 100, 100]), "piece.sizeMm.0"],
    ["a length below 0", piece([100, -5, 100]), "piece.sizeMm.1"],
    ["a length that is no number", piece([100, 100, NaN]), "piece.sizeMm.2"],
    ["10 m", piece([10_000, 100, 100]), "piece.sizeMm.0"],
    ["a wall that is no number", wall(NaN), "mould.wallMm"],
    ["a feeder of 0", { ...BRICK, feeder: { diameterMm: 0, lengthMm: 60 } }, "feeder.diameterMm"],
    ["a controller of 2 segments", { ...BRICK, kiln: { ...KILN, controllerSegments: 2 } }, "kiln.controllerSegments"],
    ["a stress of 0", { ...BRICK, stress: { permanentMPa: 0, passingMPa: 1 } }, "stress.permanentMPa"],
  ] as const)("%s", (_what, input, field) => {
    const problem = problemsOf(input).find((one) => one.field === field);
    expect(problem?.message).toContain(field);
    expect(problem?.allowed).toBeTruthy();
  });

  it.each([[9.9, true], [10, false], [150, false], [150.1, true]])("a wall of %d mm is refused: %s", (wallMm, refused) => {
    expect(fields(wall(wallMm)).includes("mould.wallMm")).toBe(refused);
  });

  it("tells all faults at once", () => {
    const input: CastingInput = { ...wall(0), piece: { shape: "brick", sizeMm: [0, 0, 0] }, feeder: { diameterMm: -1, lengthMm: 60 } };
    expect(fields(input).sort()).toEqual(["feeder.diameterMm", "mould.wallMm", "piece.sizeMm.0", "piece.sizeMm.1", "piece.sizeMm.2"]);
  });

  it("asks for the lengths a shape needs, and says why the weight alone is not enough", () => {
    const [problem] = problemsOf({ ...BRICK, piece: { shape: "brick", waxKg: 2 } });
    expect(problem?.field).toBe("piece.sizeMm");
    expect(problem?.message).toContain("width, depth, height");
  });

  it("asks for a mesh's file where only its name is known", () => {
    expect(problemsOf({ ...BRICK, piece: { shape: "mesh", file: "a.stl" } })[0]).toMatchObject({ code: "mesh-not-read", field: "piece.file" });
  });

  it("refuses sizes and a thickness beside a mesh, which brings its own", () => {
    const outcome = planFiring({ ...BRICK, piece: { shape: "mesh", sizeMm: [1, 2, 3], thickestMm: 50 } }, cube(0.1));
    expect(!outcome.ok && outcome.problems.map((problem) => problem.field)).toEqual(["piece.sizeMm", "piece.thickestMm"]);
  });

  it("refuses a mesh that was drawn in metres or inches", () => {
    const outcome = planFiring({ ...BRICK, piece: { shape: "mesh" } }, cube(0.0001));
    expect(!outcome.ok && outcome.problems[0].message).toContain("it must be 2 to 3000 mm");
  });
});

describe("inches taken for millimetres are asked back", () => {
  const litres = 3;
  const wax = (factor: number): CastingInput => ({ ...BRICK, piece: { shape: "brick", sizeMm: [200, 150, 100], waxKg: factor * litres * 0.93 } });
  it.each([[0.34, false], [1, false], [2.99, false], [3.01, true], [0.33, true], [25.4 ** 3 / 1000, true]])("weight over size of %d is asked back: %s", (factor, asked) => {
    expect(problemsOf(wax(factor)).some((problem) => problem.code === "units-mixed-up")).toBe(asked);
  });
});

describe("temperatures", () => {
  it.each([[880, 0], [881, 1]])("a plaster mould at %d °C has %d refusals", (processC, refusals) => {
    expect(problemsOf({ ...BRICK, processC }).filter((problem) => problem.code === "too-hot-for-mould")).toHaveLength(refusals);
  });
  it.each([[850, false], [851, true]])("a plaster mould at %d °C is warned: %s", (processC, warned) => {
    expect(planned({ ...BRICK, processC }).warnings.some((text) => text.includes("plaster grows brittle"))).toBe(warned);
  });
  it.each([[850, false], [849, true]])("a kiln of at most %d °C is refused for an 850 °C program: %s", (maxC, refused) => {
    expect(problemsOf({ ...BRICK, processC: 850, kiln: { ...KILN, maxC } }).some((problem) => problem.code === "too-hot-for-kiln")).toBe(refused);
  });
  it("a glass that would not even soften is refused", () => {
    expect(problemsOf({ ...BRICK, processC: 600 })[0]?.code).toBe("too-cold-to-run");
  });
  it("a glass that no plaster mould can be hot enough for is refused, with or without a feeder", () => {
    const { feeder: _feeder, ...open } = BRICK;
    for (const input of [BRICK, open]) {
      const [problem] = problemsOf({ ...input, glass: "borosilicate-33" });
      expect(problem?.code).toBe("too-cold-to-run");
      expect(problem?.message).toContain("a plaster–silica mould ends at 880 °C");
    }
  });
  it("a feeder far too narrow for its glass is refused with the width that would do", () => {
    const [problem] = problemsOf({ ...BRICK, feeder: { diameterMm: 10, lengthMm: 60 } });
    expect(problem).toMatchObject({ code: "does-not-run", field: "feeder.diameterMm", value: 10 });
    const wide = Number(/\d+/.exec(problem?.allowed ?? "")?.[0]);
    expect(problemsOf({ ...BRICK, feeder: { diameterMm: wide, lengthMm: 60 } })).toEqual([]);
    expect(problemsOf({ ...BRICK, feeder: { diameterMm: wide - 1, lengthMm: 60 } })[0]?.code).toBe("does-not-run");
  });
  it("a kiln too weak for the program is refused with the power that would do", () => {
    const [problem] = problemsOf({ ...BRICK, kiln: { ...KILN, powerKw: 4 } });
    expect(problem).toMatchObject({ code: "too-weak-kiln", field: "kiln.powerKw", value: 4 });
    const least = Number(/[\d.]+/.exec(problem?.allowed ?? "")?.[0]);
    expect(problemsOf({ ...BRICK, kiln: { ...KILN, powerKw: least } })).toEqual([]);
    expect(problemsOf({ ...BRICK, kiln: { ...KILN, powerKw: least - 0.2 } })[0]?.code).toBe("too-weak-kiln");
  });
});

describe("what cannot be done as wished is said, never silently changed", () => {
  it("slows a ramp that the kiln has no power for and says so", () => {
    const weak = planned({ ...BRICK, kiln: { ...KILN, powerKw: 6 } });
    expect(weak.firing.stages.some((stage) => stage.why.includes("kiln's power allows"))).toBe(true);
  });
  it("turns a rate slower than the controller's into steps and counts its segments", () => {
    const plan = planned({ ...slab(100), kiln: { ...KILN, minRateKPerH: 5, controllerSegments: 20 } });
    expect(plan.firing.stages.find((stage) => stage.stage === "Slow cool")?.why).toContain("steps of");
    expect(plan.warnings.some((text) => text.includes("segments"))).toBe(true);
  });
  it("names everything that was assumed of an own glass", () => {
    const plan = planned({ ...BRICK, glass: { name: "Shed green", annealingPointC: 515 } });
    expect(plan.warnings.filter((text) => text.includes("Shed green") || /assum|taken|density|expansion/i.test(text)).length).toBeGreaterThan(0);
  });
});
