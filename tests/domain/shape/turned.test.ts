import { describe, expect, it } from "vitest";
import { boxOf, meshFacts } from "@/lib/domain/shape/mesh/triangle-mesh";
import { inMetres, MESH_UNITS, MESH_UPS } from "@/lib/domain/shape/mesh/turned";
import { notOneBody } from "@/lib/domain/shape/mesh/parts";
import { brickMesh } from "./sample-meshes";

const sides = (up: (typeof MESH_UPS)[number]) => {
  const { min, max } = boxOf(inMetres(brickMesh(200, 150, 100), "mm", up));
  return [0, 1, 2].map((axis) => Math.round(1000 * ((max[axis] ?? 0) - (min[axis] ?? 0))));
};

describe("a mesh as it stands in the kiln", () => {
  it.each([["mm", 0.2], ["cm", 2], ["m", 200], ["inch", 5.08]] as const)("drawn in %s, 200 across is %d m", (unit, expected) => {
    expect(boxOf(inMetres(brickMesh(200, 150, 100), unit, "+z")).max[0]).toBeCloseTo(expected, 9);
  });

  it.each([["+z", 100], ["-z", 100], ["+y", 150], ["-y", 150], ["+x", 200], ["-x", 200]] as const)("with %s up it is %d mm tall", (up, heightMm) => {
    expect(sides(up)[2]).toBe(heightMm);
  });

  it("is turned, never mirrored: it keeps its inside and its volume", () => {
    for (const unit of MESH_UNITS) {
      for (const up of MESH_UPS) {
        const mesh = inMetres(brickMesh(2, 1.5, 1), unit, up);
        const facts = meshFacts(mesh);
        expect(facts.ok && notOneBody(mesh, facts.value)).toBeUndefined();
      }
    }
  });

  it("puts the side that was chosen on top", () => {
    const upright = inMetres(brickMesh(2, 1.5, 1, [5, 10, 20]), "m", "+y");
    expect(boxOf(upright).max).toEqual([7, -20, 11.5]);
    expect(boxOf(inMetres(brickMesh(2, 1.5, 1, [5, 10, 20]), "m", "-y")).max).toEqual([7, 21, -10]);
  });
});
