import { boxOf, triangleCount, type TriangleMesh } from "./triangle-mesh";
import { weld } from "./weld";

/** A surface thinned and rounded for drawing; never for calculating. */
export type DrawnSurface = {
  /** x y z of each corner as a share of the longest side of the box, from its lowest corner: 0 to 65535. */
  readonly points: Uint16Array;
  /** Three corner numbers a triangle. */
  readonly triangles: Uint32Array;
};

/** What one unit of the points stands for is the longest side over this. */
export const FULL = 65_535;
/** Enough for a smooth outline on a screen, some 150 kB to send. */
const MOST_DRAWN = 12_000;
const FINEST = 128;
const COARSER = 0.8;

/**
 * The surface of a mesh with at most `most` triangles: corners that share a cell of an ever coarser grid
 * become one, at their common middle, and what falls together is left out.
 */
export function drawnSurface(mesh: TriangleMesh, most: number = MOST_DRAWN): DrawnSurface {
  const { corners } = mesh;
  const box = boxOf(mesh);
  const longest = Math.max(box.max[0] - box.min[0], box.max[1] - box.min[1], box.max[2] - box.min[2]) || 1;
  const shares = new Float64Array(corners.length);
  for (let i = 0; i < corners.length; i += 1) shares[i] = ((corners[i] ?? 0) - (box.min[(i % 3) as 0 | 1 | 2])) / longest;
  if (triangleCount(mesh) <= most) {
    const { nodes, count } = weld(corners, box);
    return joined(shares, nodes, count);
  }
  for (let cells = FINEST; ; cells *= COARSER) {
    const surface = joined(shares, ...cellNumbers(shares, cells));
    if (surface.triangles.length <= 3 * most || cells < 4) return surface;
  }
}

function cellNumbers(shares: Float64Array, cells: number): readonly [numbers: Int32Array, count: number] {
  const numbers = new Int32Array(shares.length / 3);
  const known = new Map<number, number>();
  for (let i = 0; i < numbers.length; i += 1) {
    const x = Math.floor((shares[3 * i] ?? 0) * cells);
    const y = Math.floor((shares[3 * i + 1] ?? 0) * cells);
    const z = Math.floor((shares[3 * i + 2] ?? 0) * cells);
    const key = (x * 256 + y) * 256 + z;
    const number = known.get(key) ?? known.size;
    known.set(key, number);
    numbers[i] = number;
  }
  return [numbers, known.size];
}

/** Corners of one number at their common middle, and the triangles that still have three. */
function joined(shares: Float64Array, numbers: Int32Array, count: number): DrawnSurface {
  const sums = new Float64Array(3 * count);
  const uses = new Int32Array(count);
  for (let i = 0; i < numbers.length; i += 1) {
    const number = numbers[i] ?? 0;
    uses[number] = (uses[number] ?? 0) + 1;
    for (let axis = 0; axis < 3; axis += 1) sums[3 * number + axis] = (sums[3 * number + axis] ?? 0) + (shares[3 * i + axis] ?? 0);
  }
  const points = new Uint16Array(3 * count);
  for (let i = 0; i < points.length; i += 1) points[i] = Math.round((FULL * (sums[i] ?? 0)) / (uses[Math.floor(i / 3)] ?? 1));
  const triangles: number[] = [];
  for (let i = 0; i < numbers.length; i += 3) {
    const [a = 0, b = 0, c = 0] = [numbers[i], numbers[i + 1], numbers[i + 2]];
    if (a !== b && b !== c && c !== a) triangles.push(a, b, c);
  }
  return { points, triangles: Uint32Array.from(triangles) };
}
