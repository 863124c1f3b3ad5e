import type { Conduction } from "@/lib/domain/shape/conduction";
import type { Cells } from "./cells";

/** Largest and mean u, and where it is largest, from the lowest corner of the mesh's box. */
export type CellConduction = Conduction & { readonly thickestAtM: readonly [number, number, number] };

const TOLERANCE = 1e-8;
const MOST_ROUNDS = 6000;
/** How often somebody who waits is told, in rounds. */
const TOLD_EVERY = 4;
/** Cells whose u differs by less than this share are as thick as each other. */
const SAME = 1e-3;

/** What lies beyond each side of each cell, and how much glass each cell stands for. */
export type Sides = {
  /** Distance to the cooled surface in cells, where there is no inside neighbour; infinite lets no heat through. */
  readonly distances: Float64Array;
  /** Volume in cells; 1 for a whole one. */
  readonly volumes: Float64Array;
};

/**
 * −∇²u = 1 on the cells, by preconditioned conjugate gradients. `tell` is told the share that is done,
 * 0 to 1, by how far the residual has fallen.
 */
export function conductCells(cells: Cells, sides: Sides, volumeM3: number, lowest: readonly [number, number, number], tell?: (share: number) => void): CellConduction {
  const u = solve(cells, sides, tell);
  const { count, places, grid: { h, origin } } = cells;
  let most = 0;
  let sum = 0;
  for (let n = 0; n < count; n += 1) {
    sum += (u[n] ?? 0) * (sides.volumes[n] ?? 1);
    most = Math.max(most, u[n] ?? 0);
  }
  const top = middleOf(places, u, (1 - SAME) * most);
  const along = (axis: 0 | 1 | 2) => origin[axis] + ((places[3 * top + axis] ?? 0) + 0.5) * h - lowest[axis];
  return { maxM2: most * h * h, meanM2: (sum * h * h * h ** 3) / volumeM3, thickestAtM: [along(0), along(1), along(2)] };
}

/** Of the cells with at least this u, the one nearest to their common middle: a flat plate is thickest all over. */
function middleOf(places: Int32Array, u: Float64Array, least: number): number {
  const high = Array.from(u.keys()).filter((n) => (u[n] ?? 0) >= least);
  const mean = [0, 1, 2].map((axis) => high.reduce((sum, n) => sum + (places[3 * n + axis] ?? 0), 0) / high.length);
  const away = (n: number): number => Math.hypot(...mean.map((middle, axis) => (places[3 * n + axis] ?? 0) - middle));
  return high.reduce((best, n) => (away(n) < away(best) ? n : best), high[0] ?? 0);
}

/** u in units of h². */
function solve(cells: Cells, { distances, volumes }: Sides, tell?: (share: number) => void): Float64Array {
  const n = cells.count;
  const diagonal = diagonalOf(cells, distances);
  const factor = incompleteFactor(cells, diagonal);
  const u = new Float64Array(n);
  const residual = volumes.slice();
  const scaled = new Float64Array(n);
  precondition(cells, factor, residual, scaled);
  const direction = scaled.slice();
  const product = new Float64Array(n);
  const first = dot(residual, scaled);
  const goal = TOLERANCE * TOLERANCE * first;
  let rho = first;
  for (let round = 0; round < MOST_ROUNDS && rho > goal; round += 1) {
    multiply(cells, diagonal, direction, product);
    const step = rho / dot(direction, product);
    for (let i = 0; i < n; i += 1) {
      u[i] = (u[i] ?? 0) + step * (direction[i] ?? 0);
      residual[i] = (residual[i] ?? 0) - step * (product[i] ?? 0);
    }
    precondition(cells, factor, residual, scaled);
    const next = dot(residual, scaled);
    const keep = next / rho;
    rho = next;
    for (let i = 0; i < n; i += 1) direction[i] = (scaled[i] ?? 0) + keep * (direction[i] ?? 0);
    if (round % TOLD_EVERY === 0) tell?.(Math.min(1, Math.max(0, Math.log(rho / first) / Math.log(goal / first))));
  }
  return u;
}

function diagonalOf({ count, neighbours }: Cells, distances: Float64Array): Float64Array {
  const diagonal = new Float64Array(count);
  for (let i = 0; i < 6 * count; i += 1) {
    const cell = Math.floor(i / 6);
    diagonal[cell] = (diagonal[cell] ?? 0) + ((neighbours[i] ?? -1) >= 0 ? 1 : 1 / (distances[i] ?? 1));
  }
  return diagonal;
}

/** How much of the dropped fill-in is kept on the diagonal, and below which share it is not trusted (Bridson, Fluid Simulation for Computer Graphics). */
const MODIFIED = 0.97;
const LEAST_PIVOT = 0.25;

/** The inverse diagonal of a modified incomplete Cholesky factor; it takes a fifth of the rounds that the diagonal alone would. */
function incompleteFactor({ count, neighbours }: Cells, diagonal: Float64Array): Float64Array {
  const factor = new Float64Array(count);
  for (let cell = 0; cell < count; cell += 1) {
    let pivot = diagonal[cell] ?? 1;
    for (let d = 0; d < 6; d += 2) {
      const below = neighbours[6 * cell + d] ?? -1;
      if (below < 0) continue;
      const square = (factor[below] ?? 0) ** 2;
      let others = -1;
      for (let up = 1; up < 6; up += 2) if ((neighbours[6 * below + up] ?? -1) >= 0) others += 1;
      pivot -= square * (1 + MODIFIED * others);
    }
    if (pivot < LEAST_PIVOT * (diagonal[cell] ?? 1)) pivot = diagonal[cell] ?? 1;
    factor[cell] = 1 / Math.sqrt(pivot);
  }
  return factor;
}

/** Cells are numbered along the axes, so the neighbours in the even directions come before a cell, the others after. */
function precondition({ count, neighbours }: Cells, factor: Float64Array, of: Float64Array, into: Float64Array): void {
  for (let cell = 0; cell < count; cell += 1) {
    let sum = of[cell] ?? 0;
    for (let d = 6 * cell; d < 6 * cell + 6; d += 2) {
      const below = neighbours[d] ?? -1;
      if (below >= 0) sum += (factor[below] ?? 0) * (into[below] ?? 0);
    }
    into[cell] = sum * (factor[cell] ?? 1);
  }
  for (let cell = count - 1; cell >= 0; cell -= 1) {
    let sum = into[cell] ?? 0;
    const own = factor[cell] ?? 1;
    for (let d = 6 * cell + 1; d < 6 * cell + 6; d += 2) {
      const above = neighbours[d] ?? -1;
      if (above >= 0) sum += own * (into[above] ?? 0);
    }
    into[cell] = sum * own;
  }
}

function multiply({ count, neighbours }: Cells, diagonal: Float64Array, of: Float64Array, into: Float64Array): void {
  for (let cell = 0; cell < count; cell += 1) {
    let sum = (diagonal[cell] ?? 0) * (of[cell] ?? 0);
    for (let d = 6 * cell; d < 6 * cell + 6; d += 1) {
      const neighbour = neighbours[d] ?? -1;
      if (neighbour >= 0) sum -= of[neighbour] ?? 0;
    }
    into[cell] = sum;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}
