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

/**
 * Where the lines through cell centres along one axis cross the surface: for line (j, k) of the two other
 * axes, the sorted coordinates, at index j·counts + k.
 */
export function crossingsAlong(mesh: TriangleMesh, grid: Grid, axis: 0 | 1 | 2): readonly (readonly number[])[] {
  const [b, c] = otherAxes(axis);
  const [nb, nc] = [grid.counts[b], grid.counts[c]];
  const lines: number[][] = Array.from({ length: nb * nc }, () => []);
  const { corners } = mesh;
  const p = (t: number, corner: number, along: number): number => corners[t + 3 * corner + along] ?? 0;
  for (let t = 0; t < corners.length; t += 9) {
    const [b0, b1, b2] = [p(t, 0, b), p(t, 1, b), p(t, 2, b)];
    const [c0, c1, c2] = [p(t, 0, c), p(t, 1, c), p(t, 2, c)];
    const area = (b1 - b0) * (c2 - c0) - (b2 - b0) * (c1 - c0);
    if (area === 0) continue;
    const range = (low: number, high: number, along: 0 | 1 | 2): readonly [number, number] => [
      Math.max(0, Math.ceil((low - grid.origin[along]) / grid.h - 0.5)),
      Math.min(grid.counts[along] - 1, Math.floor((high - grid.origin[along]) / grid.h - 0.5)),
    ];
    const [j0, j1] = range(Math.min(b0, b1, b2), Math.max(b0, b1, b2), b);
    const [k0, k1] = range(Math.min(c0, c1, c2), Math.max(c0, c1, c2), c);
    for (let j = j0; j <= j1; j += 1) {
      const y = grid.origin[b] + (j + 0.5) * grid.h;
      for (let k = k0; k <= k1; k += 1) {
        const z = grid.origin[c] + (k + 0.5) * grid.h;
        const w1 = ((y - b0) * (c2 - c0) - (b2 - b0) * (z - c0)) / area;
        const w2 = ((b1 - b0) * (z - c0) - (y - b0) * (c1 - c0)) / area;
        if (w1 < 0 || w2 < 0 || w1 + w2 > 1) continue;
        lines[j * nc + k]?.push(p(t, 0, axis) + w1 * (p(t, 1, axis) - p(t, 0, axis)) + w2 * (p(t, 2, axis) - p(t, 0, axis)));
      }
    }
  }
  for (const line of lines) line.sort((x, y) => x - y);
  return lines;
}

export function otherAxes(axis: 0 | 1 | 2): readonly [0 | 1 | 2, 0 | 1 | 2] {
  if (axis === 0) return [1, 2];
  return axis === 1 ? [0, 2] : [0, 1];
}
