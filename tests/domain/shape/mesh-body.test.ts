import { describe, expect, it } from "vitest";
import { ballConduction, brickConduction, cylinderConduction } from "@/lib/domain/shape/conduction";
import { meshBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";
import { ballMesh, brickMesh, cylinderMesh, insideOut, withoutTriangle } from "./sample-meshes";

function body(mesh: TriangleMesh, cells?: number): MeshBody {
  const outcome = meshBody(mesh, cells);
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
}

/** Of the slab-equivalent thickness √(8·max u), and of the mean, against the exact series; 2 % is asked. */
const WITHIN = 0.02;

describe("a mesh of a body whose series is known, at 64 cells", () => {
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
      const { volumeM3, surfaceM2, boxM } = body(mesh, 24);
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

describe("a mesh that is none is refused with the reason", () => {
  it("says how many edges are open", () => {
    const outcome = meshBody(withoutTriangle(brickMesh(0.1, 0.1, 0.1)));
    expect(!outcome.ok && outcome.problems[0]).toMatchObject({ code: "mesh-not-closed", field: "piece.file", message: expect.stringContaining("3 open edges") });
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
