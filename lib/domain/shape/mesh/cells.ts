import { crossingsAlong, gridAround, otherAxes, type Grid } from "./grid-lines";
import type { Box, TriangleMesh } from "./triangle-mesh";

/** The six directions, as axis and sign. */
export const DIRECTIONS = [[0, -1], [0, 1], [1, -1], [1, 1], [2, -1], [2, 1]] as const;

/**
 * The cells whose centres lie inside a body. For each of them and each direction: the number of the
 * inside neighbour, or −1, and then the distance to the surface in cells, above 0 and at most 1.
 */
export type Cells = {
  readonly grid: Grid;
  readonly count: number;
  /** Place of each inside cell: i, j, k. */
  readonly places: Int32Array;
  readonly neighbours: Int32Array;
  readonly wallDistance: Float64Array;
};

/** A surface nearer than this counts as this near, so that one cell does not outweigh all others. */
const NEAREST = 1e-3;

export function cellsInside(mesh: TriangleMesh, box: Box, cellsAcross: number): Cells {
  const grid = gridAround(box, cellsAcross);
  const crossings = [crossingsAlong(mesh, grid, 0), crossingsAlong(mesh, grid, 1), crossingsAlong(mesh, grid, 2)] as const;
  const numbers = insideNumbers(grid, crossings[2]);
  const [nx, ny, nz] = grid.counts;
  let count = 0;
  for (const number of numbers) if (number >= 0) count += 1;
  const places = new Int32Array(3 * count);
  const neighbours = new Int32Array(6 * count).fill(-1);
  const wallDistance = new Float64Array(6 * count).fill(1);
  const stride = [ny * nz, nz, 1] as const;
  for (let i = 0, at = 0; i < nx; i += 1) {
    for (let j = 0; j < ny; j += 1) {
      for (let k = 0; k < nz; k += 1, at += 1) {
        const number = numbers[at] ?? -1;
        if (number < 0) continue;
        const place = [i, j, k] as const;
        places.set(place, 3 * number);
        DIRECTIONS.forEach(([axis, sign], d) => {
          const beside = place[axis] + sign;
          const neighbour = beside < 0 || beside >= grid.counts[axis] ? -1 : (numbers[at + sign * stride[axis]] ?? -1);
          neighbours[6 * number + d] = neighbour;
          if (neighbour < 0) wallDistance[6 * number + d] = distance(grid, crossings[axis], place, axis, sign);
        });
      }
    }
  }
  return { grid, count, places, neighbours, wallDistance };
}

/** Running numbers of the inside cells, −1 outside: inside is where an odd number of crossings lies below. */
function insideNumbers(grid: Grid, crossings: readonly (readonly number[])[]): Int32Array {
  const [nx, ny, nz] = grid.counts;
  const numbers = new Int32Array(nx * ny * nz).fill(-1);
  let next = 0;
  for (let line = 0; line < nx * ny; line += 1) {
    const cuts = crossings[line] ?? [];
    let below = 0;
    for (let k = 0; k < nz; k += 1) {
      const z = grid.origin[2] + (k + 0.5) * grid.h;
      while (below < cuts.length && (cuts[below] ?? Infinity) < z) below += 1;
      if (below % 2 === 1) {
        numbers[line * nz + k] = next;
        next += 1;
      }
    }
  }
  return numbers;
}

function distance(grid: Grid, crossings: readonly (readonly number[])[], place: readonly [number, number, number], axis: 0 | 1 | 2, sign: -1 | 1): number {
  const [b, c] = otherAxes(axis);
  const centre = grid.origin[axis] + (place[axis] + 0.5) * grid.h;
  const cuts = crossings[place[b] * grid.counts[c] + place[c]] ?? [];
  const cut = sign > 0 ? cuts.find((one) => one > centre) : cuts.findLast((one) => one < centre);
  const cells = cut === undefined ? 1 : Math.abs(cut - centre) / grid.h;
  return Math.min(1, Math.max(NEAREST, cells));
}
