import { ok, refuse, type Outcome } from "@/lib/domain/refusal";

/** A surface of triangles: nine numbers each, x y z of three corners, metres. */
export type TriangleMesh = { readonly corners: Float64Array };

export type Box = { readonly min: readonly [number, number, number]; readonly max: readonly [number, number, number] };

/** What a closed mesh encloses: litres would be thousands of m³; here m³ and m². */
export type MeshFacts = { readonly volumeM3: number; readonly surfaceM2: number; readonly box: Box };

const CORNER_NUMBERS = 9;
/** Corners closer than this share of the box's diagonal are one corner: scans repeat them with rounding. */
const WELD = 1e-6;
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
  const count = triangleCount(mesh);
  if (!Number.isInteger(count) || !(count >= 4 && count <= MOST_TRIANGLES)) {
    return no("wrong-mesh", `The mesh has ${count} triangles; it must have 4 to ${MOST_TRIANGLES}.`);
  }
  if (!mesh.corners.every(Number.isFinite)) return no("wrong-mesh", "The mesh has corners that are no numbers.");
  const box = boxOf(mesh);
  const open = openEdges(mesh, box);
  if (open > 0) return no("mesh-not-closed", `The mesh has ${open} open edges, so it encloses nothing: close its holes and save it again.`);
  const { signed, surface } = sums(mesh);
  if (!(Math.abs(signed) > 0)) return no("mesh-flat", "The mesh encloses no volume.");
  return ok({ volumeM3: Math.abs(signed), surfaceM2: surface, box });
}

function no(code: string, message: string) {
  return refuse({ code, field: "piece.file", message });
}

function sums({ corners }: TriangleMesh): { signed: number; surface: number } {
  let signed = 0;
  let surface = 0;
  const at = (i: number): number => corners[i] ?? 0;
  for (let t = 0; t < corners.length; t += CORNER_NUMBERS) {
    const [ax, ay, az] = [at(t), at(t + 1), at(t + 2)];
    const [bx, by, bz] = [at(t + 3), at(t + 4), at(t + 5)];
    const [cx, cy, cz] = [at(t + 6), at(t + 7), at(t + 8)];
    signed += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    const [ux, uy, uz] = [bx - ax, by - ay, bz - az];
    const [vx, vy, vz] = [cx - ax, cy - ay, cz - az];
    surface += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  }
  return { signed, surface };
}

/** Edges whose directions do not cancel; 0 for a closed, consistently wound surface. */
function openEdges({ corners }: TriangleMesh, box: Box): number {
  const welded = weld(corners, box);
  const balance = new Map<number, number>();
  const nodes = corners.length / 3;
  const edge = (a: number, b: number): void => {
    if (a === b) return;
    const key = a < b ? a * nodes + b : b * nodes + a;
    balance.set(key, (balance.get(key) ?? 0) + (a < b ? 1 : -1));
  };
  for (let i = 0; i < welded.length; i += 3) {
    const [a = 0, b = 0, c = 0] = [welded[i], welded[i + 1], welded[i + 2]];
    edge(a, b);
    edge(b, c);
    edge(c, a);
  }
  let open = 0;
  for (const sum of balance.values()) if (sum !== 0) open += 1;
  return open;
}

/** The number of each corner, equal for corners in the same place. */
function weld(corners: Float64Array, { min, max }: Box): Int32Array {
  const grain = WELD * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]) || 1;
  const numbers = new Int32Array(corners.length / 3);
  const known = new Map<string, number>();
  for (let i = 0; i < numbers.length; i += 1) {
    const place = [0, 1, 2].map((axis) => Math.round(((corners[3 * i + axis] ?? 0) - (min[axis] ?? 0)) / grain)).join(",");
    const number = known.get(place) ?? known.size;
    known.set(place, number);
    numbers[i] = number;
  }
  return numbers;
}
