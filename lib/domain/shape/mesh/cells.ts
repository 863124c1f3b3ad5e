import { crossingsAlong, gridAround, otherAxes, type Crossings, type Grid } from "./grid-lines";
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
  /** Where the upright lines cross the surface, sorted, and how steep it is there. */
  readonly upright: Crossings;
};

/** A surface nearer than this counts as this near, so that one cell does not outweigh all others. */
const NEAREST = 1e-3;

export function cellsInside(mesh: TriangleMesh, box: Box, cellsAcross: number): Cells {
  const grid = gridAround(box, cellsAcross);
  const crossings = [crossingsAlong(mesh, grid, 0), crossingsAlong(mesh, grid, 1), crossingsAlong(mesh, grid, 2)] as const;
  const numbers = insideNumbers(grid, crossings[2]);
  const [, ny, nz] = grid.counts;
  let count = 0;
  for (let at = 0; at < numbers.length; at += 1) if ((numbers[at] ?? -1) >= 0) count += 1;
  const places = new Int32Array(3 * count);
  const neighbours = new Int32Array(6 * count).fill(-1);
  const wallDistance = new Float64Array(6 * count).fill(1);
  const stride = [ny * nz, nz, 1] as const;
  const place: [number, number, number] = [0, 0, 0];
  for (let at = 0; at < numbers.length; at += 1) {
    const number = numbers[at] ?? -1;
    if (number < 0) continue;
    place[0] = Math.floor(at / stride[0]);
    place[1] = Math.floor(at / nz) % ny;
    place[2] = at % nz;
    for (let axis = 0; axis < 3; axis += 1) places[3 * number + axis] = place[axis] ?? 0;
    for (let d = 0; d < 6; d += 1) {
      const [axis, sign] = DIRECTIONS[d] ?? DIRECTIONS[0];
      const beside = place[axis] + sign;
      const neighbour = beside < 0 || beside >= grid.counts[axis] ? -1 : (numbers[at + sign * stride[axis]] ?? -1);
      neighbours[6 * number + d] = neighbour;
      if (neighbour < 0) wallDistance[6 * number + d] = distance(grid, crossings[axis], place, axis, sign);
    }
  }
  return { grid, count, places, neighbours, wallDistance, upright: crossings[2] };
}

/** Running numbers of the inside cells, −1 outside: inside is where an odd number of crossings lies below. */
function insideNumbers(grid: Grid, { lines }: Crossings): Int32Array {
  const [nx, ny, nz] = grid.counts;
  const numbers = new Int32Array(nx * ny * nz).fill(-1);
  let next = 0;
  for (let line = 0; line < nx * ny; line += 1) {
    const cuts = lines[line] ?? [];
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

function distance(grid: Grid, { lines }: Crossings, place: readonly [number, number, number], axis: 0 | 1 | 2, sign: -1 | 1): number {
  const [b, c] = otherAxes(axis);
  const centre = grid.origin[axis] + (place[axis] + 0.5) * grid.h;
  const cuts = lines[place[b] * grid.counts[c] + place[c]] ?? [];
  const cut = sign > 0 ? cuts.find((one) => one > centre) : cuts.findLast((one) => one < centre);
  const cells = cut === undefined ? 1 : Math.abs(cut - centre) / grid.h;
  return Math.min(1, Math.max(NEAREST, cells));
}
