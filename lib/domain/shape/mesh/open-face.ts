import { DIRECTIONS, type Cells } from "./cells";
import type { Sides } from "./conduct-cells";

/** Steeper than this (45°) a surface stands against the mould or the kiln; it is no open face. */
const LEVEL_ENOUGH = Math.SQRT1_2;
const UP = DIRECTIONS.findIndex(([axis, sign]) => axis === 2 && sign > 0);

/**
 * The sides of the cells for a body that lies in a thick bed with its upper side open: only what is
 * seen from above and leans less than 45° from level cools; all else is insulated, which is an infinite
 * distance. Undefined when nothing is open, or when some of the glass hangs on by less than a cell, so
 * that its heat could not be followed to the open face.
 */
export function openFaceSides(cells: Cells): Sides | undefined {
  const { count, neighbours, wallDistance, places, upright, grid } = cells;
  const distances = new Float64Array(6 * count).fill(Infinity);
  const reached = new Uint8Array(count);
  const toVisit: number[] = [];
  const topmost = topmostCells(cells);
  for (let cell = 0; cell < count; cell += 1) {
    const line = (places[3 * cell] ?? 0) * grid.counts[1] + (places[3 * cell + 1] ?? 0);
    if (topmost[line] !== cell || !((upright.lastLevel[line] ?? 0) >= LEVEL_ENOUGH)) continue;
    distances[6 * cell + UP] = wallDistance[6 * cell + UP] ?? 1;
    reached[cell] = 1;
    toVisit.push(cell);
  }
  let seen = toVisit.length;
  for (let cell = toVisit.pop(); cell !== undefined; cell = toVisit.pop()) {
    for (let d = 6 * cell; d < 6 * cell + 6; d += 1) {
      const neighbour = neighbours[d] ?? -1;
      if (neighbour < 0 || reached[neighbour] === 1) continue;
      reached[neighbour] = 1;
      seen += 1;
      toVisit.push(neighbour);
    }
  }
  return seen === count && count > 0 ? { distances, volumes: volumesWithin(cells, distances) } : undefined;
}

/** An insulated surface before or behind the cell's own side takes glass from the cell or gives it some. */
function volumesWithin({ count, neighbours, wallDistance }: Cells, distances: Float64Array): Float64Array {
  const volumes = new Float64Array(count);
  for (let cell = 0; cell < count; cell += 1) {
    let volume = 1;
    for (let axis = 0; axis < 3; axis += 1) {
      let extent = 0;
      for (let d = 6 * cell + 2 * axis; d < 6 * cell + 2 * axis + 2; d += 1) {
        const insulated = (neighbours[d] ?? -1) < 0 && distances[d] === Infinity;
        extent += insulated ? (wallDistance[d] ?? 0.5) : 0.5;
      }
      volume *= extent;
    }
    volumes[cell] = volume;
  }
  return volumes;
}

/** The highest cell on each upright line, −1 where it passes by. */
function topmostCells({ count, places, grid }: Cells): Int32Array {
  const top = new Int32Array(grid.counts[0] * grid.counts[1]).fill(-1);
  for (let cell = 0; cell < count; cell += 1) {
    const line = (places[3 * cell] ?? 0) * grid.counts[1] + (places[3 * cell + 1] ?? 0);
    const before = top[line] ?? -1;
    if (before < 0 || (places[3 * cell + 2] ?? 0) > (places[3 * before + 2] ?? 0)) top[line] = cell;
  }
  return top;
}
