import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { millimetres } from "@/lib/domain/units";
import { openEdges } from "./edges";
import { areaOf, signedVolume } from "./sums";
import { weld, type Welded } from "./weld";

/** A surface of triangles: nine numbers each, x y z of three corners, metres. */
export type TriangleMesh = { readonly corners: Float64Array };

export type Box = { readonly min: readonly [number, number, number]; readonly max: readonly [number, number, number] };

/** What a closed mesh encloses: litres would be thousands of m³; here m³ and m². */
export type MeshFacts = { readonly volumeM3: number; readonly surfaceM2: number; readonly box: Box; readonly welded: Welded };

const CORNER_NUMBERS = 9;
const FEWEST_TRIANGLES = 4;
/** A scan of a phone has up to a few hundred thousand; more than this is refused before memory runs out. */
export const MOST_TRIANGLES = 2_000_000;

export function triangleCount({ corners }: TriangleMesh): number {
  return corners.length / CORNER_NUMBERS;
}

export function boxOf({ corners }: TriangleMesh): Box {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < corners.length; i += 1) {
    const axis = (i % 3) as 0 | 1 | 2;
    const value = corners[i] ?? 0;
    if (value < min[axis]) min[axis] = value;
    if (value > max[axis]) max[axis] = value;
  }
  return { min, max };
}

/**
 * Volume (by the divergence theorem, whichever way round the triangles are), surface and box of a closed
 * mesh. Refused, with the reason, when it has too few or too many triangles, is not finite, encloses
 * nothing, or has holes: an edge that is not shared in opposite directions.
 */
export function meshFacts(mesh: TriangleMesh): Outcome<MeshFacts> {
  const { corners } = mesh;
  const count = triangleCount(mesh);
  if (count === 0) return no("mesh-empty", "The file holds no triangles.");
  if (!Number.isInteger(count) || !(count >= FEWEST_TRIANGLES && count <= MOST_TRIANGLES)) {
    return no("wrong-mesh", `The mesh has ${count} triangles; it must have ${FEWEST_TRIANGLES} to ${MOST_TRIANGLES}.`);
  }
  if (!corners.every(Number.isFinite)) return no("wrong-mesh", "The mesh has corners that are no numbers.");
  const box = boxOf(mesh);
  const welded = weld(corners, box);
  const { open, turned, holes, at } = openEdges(welded);
  if (open > 0) {
    const where = placeIn(box, corners, welded.nodes.indexOf(at));
    return no("mesh-not-closed", `The mesh has ${open} open edges around ${holes === 1 ? "one hole" : `${holes} holes`}, so it encloses nothing. ${holes === 1 ? "It is" : "The largest is"} ${where}. Close ${holes === 1 ? "it" : "them"} and save it again.`);
  }
  if (turned > 0) return no("mesh-not-wound", `The mesh has ${turned} edges whose faces are turned opposite ways or do not pair up, so inside and outside cannot be told apart. Let its faces be turned outwards (recalculate normals) and save it again.`);
  let signed = 0;
  let surface = 0;
  for (let t = 0; t < corners.length; t += CORNER_NUMBERS) {
    signed += signedVolume(corners, t);
    surface += areaOf(corners, t);
  }
  if (!(Math.abs(signed) > 0)) return no("mesh-flat", "The mesh encloses no volume.");
  return ok({ volumeM3: Math.abs(signed), surfaceM2: surface, box, welded });
}

/** "about 12 mm along x, 40 mm along y and 3 mm up, from the lowest corner of its box" */
function placeIn({ min }: Box, corners: Float64Array, corner: number): string {
  const along = (axis: 0 | 1 | 2) => Math.round(millimetres((corners[3 * corner + axis] ?? 0) - min[axis]));
  return `about ${along(0)} mm along x, ${along(1)} mm along y and ${along(2)} mm up, from the lowest corner of its box`;
}

function no(code: string, message: string) {
  return refuse({ code, field: "piece.file", message });
}
