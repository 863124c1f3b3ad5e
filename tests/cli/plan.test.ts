import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { brickMesh, insideOut, withoutTriangle } from "../domain/shape/sample-meshes";
import { binaryStl, objText, textStl } from "../domain/shape/mesh-files";

const folder = mkdtempSync(path.join(tmpdir(), "plan-"));
const casting = {
  glass: "soda-lime-casting",
  piece: { shape: "brick", sizeMm: [200, 150, 100], waxKg: 2.8, waxDensityKgM3: 930 },
  cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1], driedBeforeLoading: false },
  feeder: { diameterMm: 30, lengthMm: 60, waxKg: 0.2 },
  kiln: { insideMm: [600, 600, 600], powerKw: 9, lossWPerK: 5.2, heatCapacityKJPerK: 45, maxC: 950, controllerSegments: 32, minRateKPerH: 1 },
  stress: "careful",
};

function run(script: string, argument: string | undefined, input?: string) {
  const args = ["--import", "tsx", `lib/cli/${script}.ts`, ...(argument === undefined ? [] : [argument])];
  return spawnSync(process.execPath, args, { encoding: "utf8", ...(input === undefined ? {} : { input }) });
}

function file(content: unknown): string {
  const name = path.join(folder, `${Math.abs(JSON.stringify(content).length)}-${Date.now()}.json`);
  writeFileSync(name, JSON.stringify(content));
  return name;
}

describe("the plan command", () => {
  it("prints one JSON document with every promised key and nothing else", () => {
    const { status, stdout, stderr } = run("plan", file(casting));
    expect(stderr).toBe("");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      glass: { pieceKg: expect.any(Number), chargeKg: expect.any(Number) },
      pot: { litres: expect.any(Number) },
      mould: { wetKg: expect.any(Number), dryKg: expect.any(Number), firedKg: expect.any(Number), powderKg: expect.any(Number), waterKg: expect.any(Number) },
      steamOut: { hours: expect.any(Number) },
      shape: { slabEquivalentMm: expect.any(Number) },
      firing: { hours: expect.any(Number), annealingHours: expect.any(Number), peakC: expect.any(Number) },
      stress: { permanentCentreMPa: expect.any(Number), permanentSurfaceMPa: expect.any(Number), passingMPa: expect.any(Number), coreSurfaceK: expect.any(Number) },
      reservation: { hours: expect.any(Number), kilnWeeks: expect.any(Number) },
      energy: { kWh: expect.any(Number) },
      warnings: expect.any(Array),
    });
    const { firing, lifts } = JSON.parse(stdout);
    for (const stage of firing.stages) expect(Object.keys(stage).sort()).toEqual(["hours", "rateKPerH", "stage", "toC", "why"]);
    for (const lift of lifts) expect(lift).toMatchObject({ what: expect.any(String), kg: expect.any(Number), hands: expect.any(Number) });
  });

  it("prints the mould's batches and the cold work beside its promised figures", () => {
    const { mould, coldWorking } = JSON.parse(run("plan", file(casting)).stdout);
    const water = mould.batches.layers.reduce((sum: number, layer: { amounts: { waterKg: number } }) => sum + layer.amounts.waterKg, 0);
    expect(water).toBeCloseTo(mould.waterKg, 9);
    expect(coldWorking.works[0].steps[0]).toMatchObject({ name: "F80", hours: { about: expect.any(Number) } });
    expect(Object.keys(mould)).toEqual(expect.arrayContaining(["wetKg", "dryKg", "firedKg", "powderKg", "waterKg", "outsideMm"]));
  });

  it("reads standard input for a dash", () => {
    const { status, stdout } = run("plan", "-", JSON.stringify(casting));
    expect(status).toBe(0);
    expect(JSON.parse(stdout).firing.hours).toBeGreaterThan(0);
  });

  it("takes bare glass and an ideal kiln when mould and kiln are left out", () => {
    const { status, stdout } = run("plan", "-", JSON.stringify({ glass: "lead-crystal-45", piece: { shape: "slab", sizeMm: [50] }, cooling: "all-round", stress: "careful" }));
    expect(status).toBe(0);
    expect(JSON.parse(stdout).mould.wetKg).toBe(0);
  });

  describe("a mesh", () => {
    const mesh = brickMesh(200, 150, 100);
    const { mould, feeder } = casting;
    const request = (name: string) => ({ glass: "soda-lime-casting", piece: { shape: "mesh", file: name }, cooling: "all-round", mould, feeder, stress: "careful" });
    const saved = (name: string, content: string | Uint8Array): string => {
      writeFileSync(path.join(folder, name), content);
      return name;
    };

    it.each([
      ["binary STL", saved("binary.stl", binaryStl(mesh))],
      ["text STL", saved("text.stl", textStl(mesh))],
      ["OBJ", saved("brick.obj", objText(mesh))],
    ])("%s of a brick is planned as the brick, found beside the casting's file", (_kind, name) => {
      const { status, stdout, stderr } = run("plan", file(request(name)));
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
      const [own, plain] = [JSON.parse(stdout), JSON.parse(run("plan", "-", JSON.stringify({ ...request(name), piece: { shape: "brick", sizeMm: [200, 150, 100] } })).stdout)];
      expect(own.glass.pieceKg).toBeCloseTo(plain.glass.pieceKg, 4);
      expect(Math.abs(own.shape.slabEquivalentMm / plain.shape.slabEquivalentMm - 1)).toBeLessThan(0.02);
      expect(Math.abs(own.firing.hours / plain.firing.hours - 1)).toBeLessThan(0.04);
    });

    it.each([
      ["its inside out", saved("turned.stl", binaryStl(insideOut(mesh))), /inside out/],
      ["a hole", saved("open.stl", textStl(withoutTriangle(mesh))), /open edges/],
      ["no such file", "nowhere.stl", /no such file/],
      ["another kind", saved("brick.ply", "ply"), /STL or OBJ/],
      ["no mesh", saved("words.obj", "no mesh at all"), /triangles/],
    ])("with %s is refused with the reason and exit 2", (_what, name, reason) => {
      const { status, stdout, stderr } = run("plan", file(request(name)));
      expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
      expect(stderr).toMatch(reason);
    });
  });

  it("ends with 2 and one line for every fault, and prints nothing", () => {
    const bad = { ...casting, colour: "blue", mould: { ...casting.mould, thickness: 3 } };
    const { status, stdout, stderr } = run("plan", file(bad));
    expect(status).toBe(2);
    expect(stdout).toBe("");
    const lines = stderr.trim().split("\n");
    expect(lines).toHaveLength(2);
    expect(stderr).toContain("colour");
    expect(stderr).toContain("mould.thickness");
  });

  it("names field, value and range of numbers out of range, all at once", () => {
    const bad = { ...casting, piece: { shape: "ball", sizeMm: [0] }, mould: { ...casting.mould, wallMm: -4 } };
    const { status, stderr } = run("plan", file(bad));
    expect(status).toBe(2);
    expect(stderr).toMatch(/piece\.sizeMm\.0 is 0 mm; it must be 2 to 3000 mm/);
    expect(stderr).toMatch(/mould\.wallMm is -4 mm; it must be 10 to 150 mm/);
  });

  it.each([["no file", undefined, undefined], ["a missing file", "/nowhere/at-all.json", undefined], ["no JSON", "-", "{ not json"]])(
    "ends with 2 and one sentence for %s",
    (_what, argument, input) => {
      const { status, stdout, stderr } = run("plan", argument, input);
      expect({ status, stdout, lines: stderr.trim().split("\n").length }).toEqual({ status: 2, stdout: "", lines: 1 });
    },
  );
});
