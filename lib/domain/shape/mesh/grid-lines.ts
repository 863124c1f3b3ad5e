import { areaOf } from "./sums";
import type { Box, TriangleMesh } from "./triangle-mesh";

/** A grid of cubes around a mesh; cell centres lie at origin + (i + ½)·h. */
export type Grid = {
  readonly h: number;
  readonly origin: readonly [number, number, number];
  readonly counts: readonly [number, number, number];
};

/** Off the round numbers that drawn meshes like, so that no line runs exactly along an edge. Share of a cell. */
const OFFSET = 0.000_173;

export function gridAround({ min, max }: Box, cells: number): Grid {
  const sides = [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
  const h = Math.max(...sides) / cells;
  const count = (side = 0) => Math.max(1, Math.ceil(side / h - 1e-9));
  const counts = [count(sides[0]), count(sides[1]), count(sides[2])] as const;
  const start = (axis: 0 | 1 | 2) => (min[axis] + max[axis] - counts[axis] * h) / 2 + OFFSET * h * (axis + 1);
  return { h, origin: [start(0), start(1), start(2)], counts };
}

/** The crossings of all lines along one axis; line (j, k) of the two other axes is at j·counts + k. */
export type Crossings = {
  /** Sorted coordinates. */
  readonly lines: readonly (readonly number[])[];
  /** How level the surface is at the last crossing of each line: 1 across the line, 0 along it. */
  readonly lastLevel: Float64Array;
};

/**
 * Where the lines through cell centres along one axis cross the surface. Written without closures or
 * small arrays: it runs for each of a scan's triangles.
 */
export function crossingsAlong({ corners }: TriangleMesh, grid: Grid, axis: 0 | 1 | 2): Crossings {
  const [b, c] = otherAxes(axis);
  const [nb, nc] = [grid.counts[b], grid.counts[c]];
  const [startB, startC, h] = [grid.origin[b], grid.origin[c], grid.h];
  const lines: number[][] = Array.from({ length: nb * nc }, () => []);
  const last = new Float64Array(nb * nc).fill(-Infinity);
  const lastLevel = new Float64Array(nb * nc);
  for (let t = 0; t < corners.length; t += 9) {
    const b0 = corners[t + b] ?? 0;
    const b1 = corners[t + 3 + b] ?? 0;
    const b2 = corners[t + 6 + b] ?? 0;
    const j0 = Math.max(0, Math.ceil((Math.min(b0, b1, b2) - startB) / h - 0.5));
    const j1 = Math.min(nb - 1, Math.floor((Math.max(b0, b1, b2) - startB) / h - 0.5));
    if (j0 > j1) continue;
    const c0 = corners[t + c] ?? 0;
    const c1 = corners[t + 3 + c] ?? 0;
    const c2 = corners[t + 6 + c] ?? 0;
    const k0 = Math.max(0, Math.ceil((Math.min(c0, c1, c2) - startC) / h - 0.5));
    const k1 = Math.min(nc - 1, Math.floor((Math.max(c0, c1, c2) - startC) / h - 0.5));
    const area = (b1 - b0) * (c2 - c0) - (b2 - b0) * (c1 - c0);
    if (k0 > k1 || area === 0) continue;
    const a0 = corners[t + axis] ?? 0;
    const a1 = (corners[t + 3 + axis] ?? 0) - a0;
    const a2 = (corners[t + 6 + axis] ?? 0) - a0;
    for (let j = j0; j <= j1; j += 1) {
      const y = startB + (j + 0.5) * h - b0;
      for (let k = k0; k <= k1; k += 1) {
        const z = startC + (k + 0.5) * h - c0;
        const w1 = (y * (c2 - c0) - (b2 - b0) * z) / area;
        const w2 = ((b1 - b0) * z - y * (c1 - c0)) / area;
        if (w1 < 0 || w2 < 0 || w1 + w2 > 1) continue;
        const line = j * nc + k;
        const at = a0 + w1 * a1 + w2 * a2;
        lines[line]?.push(at);
        if (at > (last[line] ?? at)) {
          last[line] = at;
          lastLevel[line] = Math.abs(area) / 2 / areaOf(corners, t);
        }
      }
    }
  }
  for (const line of lines) line.sort((x, y) => x - y);
  return { lines, lastLevel };
}

export function otherAxes(axis: 0 | 1 | 2): readonly [0 | 1 | 2, 0 | 1 | 2] {
  if (axis === 0) return [1, 2];
  return axis === 1 ? [0, 2] : [0, 1];
}
