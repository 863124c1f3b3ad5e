import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { cellsInside } from "./cells";
import { conductCells, type CellConduction } from "./conduct-cells";
import { openFaceSides } from "./open-face";
import { meshFacts, type MeshFacts, type TriangleMesh } from "./triangle-mesh";

/**
 * A body given by a mesh, as the calculations need it. Metres. `maxM2` and `meanM2` are the largest and
 * mean u of −∇²u = 1 with u = 0 on the whole surface.
 */
export type MeshBody = CellConduction & {
  readonly boxM: readonly [number, number, number];
  readonly volumeM3: number;
  readonly surfaceM2: number;
  /** The same with only the upper side cooled and the rest insulated; null where that cannot be worked out. */
  readonly openFace: CellConduction | null;
};

/** Where the work stands: what is done now, and the share of it, 0 to 1. */
export type MeshStep = "filling" | "solving";
export type TellStep = (step: MeshStep, share: number) => void;

/** Along the longest side. At 64 the thickness of bricks, cylinders and balls is within 1 % of the exact series. */
export const CELLS_ACROSS = 64;
const ENOUGH_CELLS = 50;

/**
 * Volume, surface, box and cooling of a closed mesh: the cells inside it, and −∇²u = 1 on them by
 * conjugate gradients, with the true distance to the surface in the cells beside it (the symmetric scheme
 * of Gibou et al., Journal of Computational Physics 176 (2002) 205; second order in the cell). Refused
 * with the reason when the mesh is not closed, or so thin that no cell finds room in it.
 */
export function meshBody(mesh: TriangleMesh, cellsAcross: number = CELLS_ACROSS): Outcome<MeshBody> {
  const facts = meshFacts(mesh);
  return facts.ok ? solvedBody(mesh, facts.value, cellsAcross) : facts;
}

/** The same for a mesh whose facts are known. */
export function solvedBody(mesh: TriangleMesh, { volumeM3, surfaceM2, box }: MeshFacts, cellsAcross: number = CELLS_ACROSS, tell?: TellStep): Outcome<MeshBody> {
  tell?.("filling", 0);
  const cells = cellsInside(mesh, box, cellsAcross);
  if (cells.count < ENOUGH_CELLS) {
    return refuse({ code: "mesh-too-thin", field: "piece.file", message: `The mesh is too thin for its length: only ${cells.count} cells of ${cellsAcross} across lie inside it. Describe it as a slab or a brick.` });
  }
  const allRound = conductCells(cells, { distances: cells.wallDistance, volumes: new Float64Array(cells.count).fill(1) }, volumeM3, box.min, (share) => tell?.("solving", share / 2));
  const open = openFaceSides(cells);
  const openFace = open === undefined ? null : conductCells(cells, open, volumeM3, box.min, (share) => tell?.("solving", (1 + share) / 2));
  const [sideX, sideY, sideZ] = [box.max[0] - box.min[0], box.max[1] - box.min[1], box.max[2] - box.min[2]];
  return ok({ boxM: [sideX, sideY, sideZ], volumeM3, surfaceM2, ...allRound, openFace });
}
