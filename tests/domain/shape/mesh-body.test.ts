import { describe, expect, it } from "vitest";
import { coolingBody } from "@/lib/domain/shape/cooling-body";
import { ballConduction, brickConduction, cylinderConduction } from "@/lib/domain/shape/conduction";
import { meshBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { notOneBody } from "@/lib/domain/shape/mesh/parts";
import { meshFacts, type TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";
import { ballMesh, brickMesh, cylinderMesh, insideOut, steeple, together, withoutTriangle } from "./sample-meshes";

function body(mesh: TriangleMesh, cells?: number): MeshBody {
  const outcome = meshBody(mesh, cells);
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
}

/** Of the slab-equivalent thickness √(8·max u), and of the mean, against the exact series; 2 % is asked. */
const WITHIN = 0.02;

/** Up to 260 000 cells are solved twice; a machine that is busy with other things takes its time. */
const PATIENCE = { timeout: 60_000 };

describe("a mesh of a body whose series is known, at 64 cells", PATIENCE, () => {
  it.each([
    ["cube", brickMesh(0.1, 0.1, 0.1), brickConduction([0.1, 0.1, 0.1])],
    ["brick", brickMesh(0.2, 0.15, 0.1, [3, -1, 0.5]), brickConduction([0.2, 0.15, 0.1])],
    ["flat brick", brickMesh(0.3, 0.2, 0.05), brickConduction([0.3, 0.2, 0.05])],
    ["cylinder", cylinderMesh(0.1, 0.15), cylinderConduction(0.1, 0.15)],
    ["ball", ballMesh(0.12), ballConduction(0.12)],
  ] as const)("%s", (_name, mesh, exact) => {
    const { maxM2, meanM2 } = body(mesh);
    expect(Math.abs(Math.sqrt(maxM2 / exact.maxM2) - 1)).toBeLessThan(WITHIN);
    expect(Math.abs(meanM2 / exact.meanM2 - 1)).toBeLessThan(WITHIN);
  });

  it("has the volume, surface and box of the body, wherever it lies and whichever way its triangles are wound", () => {
    for (const mesh of [brickMesh(0.2, 0.15, 0.1, [-4, 2, 9]), insideOut(brickMesh(0.2, 0.15, 0.1, [-4, 2, 9]))]) {
      const { volumeM3, surfaceM2, boxM } = body(mesh, 48);
      expect(volumeM3).toBeCloseTo(0.003, 9);
      expect(surfaceM2).toBeCloseTo(0.13, 9);
      boxM.forEach((side, at) => expect(side).toBeCloseTo([0.2, 0.15, 0.1][at] ?? 0, 9));
    }
  });

  it("finds the thick place in the middle of a ball", () => {
    for (const coordinate of body(ballMesh(0.12)).thickestAtM) expect(Math.abs(coordinate - 0.06)).toBeLessThan(0.003);
  });

  it("comes closer with more cells", () => {
    const error = (cells: number) => Math.abs(body(ballMesh(0.12), cells).maxM2 / ballConduction(0.12).maxM2 - 1);
    expect(error(48)).toBeLessThan(error(12));
    expect(error(48)).toBeLessThan(0.01);
  });
});

describe("a mesh cooled through its open upper side, the rest insulated", PATIENCE, () => {
  it.each([
    ["cube", brickMesh(0.1, 0.1, 0.1), 0.1],
    ["brick whose height is no whole number of cells", brickMesh(0.3, 0.2, 0.05), 0.05],
    ["tall brick", brickMesh(0.05, 0.05, 0.2, [1, 2, 3]), 0.2],
    ["cylinder", cylinderMesh(0.1, 0.15), 0.15],
  ] as const)("%s is half of a slab twice as thick: height²/2 and height²/3", (_name, mesh, heightM) => {
    const { openFace } = body(mesh, 48);
    expect(Math.abs((openFace?.maxM2 ?? 0) / (heightM ** 2 / 2) - 1)).toBeLessThan(WITHIN);
    expect(Math.abs((openFace?.meanM2 ?? 0) / (heightM ** 2 / 3) - 1)).toBeLessThan(WITHIN);
    expect(openFace?.thickestAtM[2]).toBeLessThan(heightM / 10);
  });

  it("cools like the slab of twice its thickness", () => {
    const mesh = coolingBody({ shape: "mesh", body: body(brickMesh(0.3, 0.2, 0.05), 32) }, "one-face");
    const slab = coolingBody({ shape: "slab", thicknessM: 0.05, sideM: 0.3 }, "one-face");
    for (const key of ["coreSurfaceM2", "surfaceM2", "centreM2", "slabEquivalentM"] as const) expect(Math.abs(mesh[key] / slab[key] - 1)).toBeLessThan(0.02);
  });

  it("loses less through a steep upper side than through a level one: a ball is thicker than its slab-equivalent doubled", () => {
    const { maxM2, openFace } = body(ballMesh(0.12, 48), 24);
    expect(openFace?.maxM2).toBeGreaterThan(4 * maxM2);
    expect(openFace?.maxM2).toBeLessThan(0.12 ** 2 / 2);
  });

  it("has no open face where nothing on top is level", () => {
    expect(body(steeple(0.1, 0.2), 24).openFace).toBeNull();
  });
});

describe("a closed mesh that is not one body", () => {
  const faultOf = (mesh: TriangleMesh) => {
    const facts = meshFacts(mesh);
    if (!facts.ok) throw new Error(facts.problems[0].message);
    return notOneBody(mesh, facts.value)?.problems[0];
  };
  it("passes when it is one", () => expect(faultOf(brickMesh(0.2, 0.15, 0.1))).toBeUndefined());
  it("is refused inside out", () => expect(faultOf(insideOut(brickMesh(0.2, 0.15, 0.1)))).toMatchObject({ code: "mesh-inside-out", message: expect.stringContaining("inside out") }));
  it("is refused in pieces, with the size of each", () => {
    const two = together(brickMesh(0.1, 0.1, 0.1), brickMesh(0.02, 0.02, 0.02, [0.5, 0, 0]));
    expect(faultOf(two)).toMatchObject({ code: "mesh-several-bodies", message: expect.stringContaining("2 separate bodies (1 L, 0.008 L)") });
  });
  it("is refused with a hollow inside", () => {
    const shell = together(brickMesh(0.1, 0.1, 0.1), insideOut(brickMesh(0.05, 0.05, 0.05, [0.025, 0.025, 0.025])));
    expect(faultOf(shell)).toMatchObject({ code: "mesh-several-bodies", message: expect.stringContaining("a hollow of 0.13 L") });
  });
});

describe("a mesh that is none is refused with the reason", () => {
  it("says how many edges are open", () => {
    const outcome = meshBody(withoutTriangle(brickMesh(0.1, 0.1, 0.1)));
    expect(!outcome.ok && outcome.problems[0]).toMatchObject({ code: "mesh-not-closed", field: "piece.file", message: expect.stringContaining("3 open edges around one hole") });
  });
  it("says where the hole is, in mm from the lowest corner", () => {
    const ball = ballMesh(0.1, 24);
    const outcome = meshBody({ corners: ball.corners.map((value) => value + 3).slice(9 * 48) });
    expect(!outcome.ok && outcome.problems[0].message).toMatch(/about [45]\d mm along x, [45]\d mm along y and (9\d|100) mm up/);
  });
  it("tells faces that are turned opposite ways from a hole", () => {
    const { corners } = brickMesh(0.1, 0.1, 0.1);
    const outcome = meshBody({ corners: Float64Array.from([...insideOut({ corners: corners.slice(0, 9) }).corners, ...corners.slice(9)]) });
    expect(!outcome.ok && outcome.problems[0]).toMatchObject({ code: "mesh-not-wound", message: expect.stringContaining("3 edges") });
  });
  it("says so when there is nothing in it", () => {
    const outcome = meshBody({ corners: new Float64Array(0) });
    expect(!outcome.ok && outcome.problems[0]).toMatchObject({ code: "mesh-empty" });
  });
  it.each([
    ["no triangles", { corners: new Float64Array(0) }],
    ["half a triangle", { corners: new Float64Array(40) }],
    ["corners that are no numbers", { corners: brickMesh(0.1, NaN, 0.1).corners }],
    ["no volume", brickMesh(0.1, 0.1, 0)],
  ])("refuses %s", (_what, mesh) => {
    expect(meshBody(mesh).ok).toBe(false);
  });
});
