import { solveTridiagonal } from "@/lib/domain/heat/conduct";
import type { RadialGrid } from "@/lib/domain/heat/radial-grid";
import { AXIAL, HOOP, RADIAL, type Stiffness } from "./memory";

/** Strain of the step in three directions a cell, with which every part is in balance with the others. */
export function balancedStrain(grid: RadialGrid, stiffness: Stiffness, free: Float64Array): Float64Array {
  return grid.shape === "slab" ? slabStrain(grid.volumes, stiffness, free, new Float64Array(3 * free.length)) : roundStrain(grid, stiffness, free);
}

/**
 * A slab whose edges are free and which stays flat: one strain in its plane for all of it, so that the
 * in-plane forces cancel; across it each layer strains as it likes, with no stress. `shares` are the layers'
 * thicknesses in any unit; the answer is written into `strain`.
 */
export function slabStrain(shares: Float64Array, { shear, bulk, left }: Stiffness, free: Float64Array, strain: Float64Array): Float64Array {
  let force = 0;
  let stiff = 0;
  for (let i = 0; i < free.length; i += 1) {
    const G = shear[i] ?? 0;
    const K = bulk[i] ?? 0;
    const wide = K + (4 / 3) * G;
    const beside = K - (2 / 3) * G;
    // Across: left + (K − 2G/3)·2ε + (K + 4G/3)·ε⊥ − 3K·free = 0.
    const across = (3 * K * (free[i] ?? 0) - (left[3 * i + RADIAL] ?? 0)) / wide;
    const perStrain = (-2 * beside) / wide;
    strain[3 * i + RADIAL] = across;
    strain[3 * i + HOOP] = perStrain;
    force += (shares[i] ?? 0) * ((left[3 * i + HOOP] ?? 0) + beside * across - 3 * K * (free[i] ?? 0));
    stiff += (shares[i] ?? 0) * (2 * (K + G / 3) + beside * perStrain);
  }
  const inPlane = -force / stiff;
  for (let i = 0; i < free.length; i += 1) {
    strain[3 * i + RADIAL] = (strain[3 * i + RADIAL] ?? 0) + (strain[3 * i + HOOP] ?? 0) * inPlane;
    strain[3 * i + HOOP] = inPlane;
    strain[3 * i + AXIAL] = inPlane;
  }
  return strain;
}

/**
 * A long cylinder with free ends or a ball: radial displacements of the faces, by finite elements with
 * one point a cell, and for the cylinder one axial strain for all of it, so that the axial forces cancel.
 */
function roundStrain(grid: RadialGrid, stiffness: Stiffness, free: Float64Array): Float64Array {
  const still = displacements(grid, stiffness, free, 0, true);
  if (grid.shape === "ball") return strains(grid, still, 0);
  const pulled = displacements(grid, stiffness, free, 1, false);
  const axialForce = (u: Float64Array, axial: number, loaded: boolean): number => {
    const strain = strains(grid, u, axial);
    let force = 0;
    for (let i = 0; i < stiffness.shear.length; i += 1) force += stressOf(stiffness, strain, free, i, AXIAL, loaded) * (grid.volumes[i] ?? 0);
    return force;
  };
  const axial = -axialForce(still, 0, true) / axialForce(pulled, 1, false);
  return strains(grid, still.map((value, i) => value + axial * (pulled[i] ?? 0)), axial);
}

/** Displacements of all faces but the middle one, which stays; `loaded` with what is left and the free expansion. */
function displacements(grid: RadialGrid, stiffness: Stiffness, free: Float64Array, axial: number, loaded: boolean): Float64Array {
  const cells = stiffness.shear.length;
  const lower = new Float64Array(cells);
  const diagonal = new Float64Array(cells);
  const upper = new Float64Array(cells);
  const right = new Float64Array(cells);
  const hoops = grid.shape === "ball" ? 2 : 1;
  for (let i = 0; i < cells; i += 1) {
    const G = stiffness.shear[i] ?? 0;
    const K = stiffness.bulk[i] ?? 0;
    const wide = K + (4 / 3) * G;
    const beside = K - (2 / 3) * G;
    const width = (grid.faces[i + 1] ?? 0) - (grid.faces[i] ?? 0);
    const volume = grid.volumes[i] ?? 0;
    // Radial and hoop strain of the cell from its inner (0) and outer (1) face.
    const radial = [-1 / width, 1 / width] as const;
    const hoop = hoopOf(grid, i);
    const radialLoad = loaded ? (stiffness.left[3 * i + RADIAL] ?? 0) - 3 * K * (free[i] ?? 0) : beside * axial;
    const hoopLoad = loaded ? (stiffness.left[3 * i + HOOP] ?? 0) - 3 * K * (free[i] ?? 0) : beside * axial;
    const hoopStiff = hoops === 2 ? wide + beside : wide;
    const term = (a: 0 | 1, b: 0 | 1): number => volume * (wide * radial[a] * radial[b] + hoops * beside * (hoop[b] * radial[a] + hoop[a] * radial[b]) + hoops * hoopStiff * hoop[a] * hoop[b]);
    const load = (a: 0 | 1): number => -volume * (radialLoad * radial[a] + hoops * hoopLoad * hoop[a]);
    diagonal[i] = (diagonal[i] ?? 0) + term(1, 1);
    right[i] = (right[i] ?? 0) + load(1);
    if (i > 0) {
      diagonal[i - 1] = (diagonal[i - 1] ?? 0) + term(0, 0);
      right[i - 1] = (right[i - 1] ?? 0) + load(0);
      lower[i] = term(1, 0);
      upper[i - 1] = term(0, 1);
    }
  }
  return solveTridiagonal(lower, diagonal, upper, right);
}

/**
 * Hoop strain of a cell per displacement of its inner and outer face, so that radial and hoop strains add
 * up to the swelling of the cell, (A·u outside − A·u inside) / volume, exactly. Anything else leaves an even
 * pressure out of balance, which near the middle of a ball is never mended by finer cells.
 */
function hoopOf(grid: RadialGrid, cell: number): readonly [inner: number, outer: number] {
  const width = (grid.faces[cell + 1] ?? 0) - (grid.faces[cell] ?? 0);
  const volume = grid.volumes[cell] ?? 1;
  const hoops = grid.shape === "ball" ? 2 : 1;
  return [(1 / width - (grid.faceAreas[cell] ?? 0) / volume) / hoops, ((grid.faceAreas[cell + 1] ?? 0) / volume - 1 / width) / hoops];
}

function strains(grid: RadialGrid, outer: Float64Array, axial: number): Float64Array {
  const all = new Float64Array(3 * outer.length);
  outer.forEach((u, i) => {
    const inner = i === 0 ? 0 : (outer[i - 1] ?? 0);
    const width = (grid.faces[i + 1] ?? 0) - (grid.faces[i] ?? 0);
    const per = hoopOf(grid, i);
    const hoop = per[0] * inner + per[1] * u;
    all.set([(u - inner) / width, hoop, grid.shape === "ball" ? hoop : axial], 3 * i);
  });
  return all;
}

/** Stress of a cell in one direction after the step, Pa. */
export function stressOf({ shear, bulk, left }: Stiffness, strain: Float64Array, free: Float64Array, cell: number, direction: number, loaded = true): number {
  const G = shear[cell] ?? 0;
  const K = bulk[cell] ?? 0;
  const sum = (strain[3 * cell] ?? 0) + (strain[3 * cell + 1] ?? 0) + (strain[3 * cell + 2] ?? 0);
  const own = (K - (2 / 3) * G) * sum + 2 * G * (strain[3 * cell + direction] ?? 0);
  return loaded ? own + (left[3 * cell + direction] ?? 0) - 3 * K * (free[cell] ?? 0) : own;
}
