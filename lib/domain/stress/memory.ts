import type { RelaxingGlass } from "./relaxing-glass";

/** Directions of stress: radial (through the slab), hoop, axial. A slab has hoop = axial = in its plane. */
export const RADIAL = 0;
export const HOOP = 1;
export const AXIAL = 2;

/**
 * What the stress of every cell remembers: each Prony term of the deviator in three directions and of the
 * pressure, Pa. The residual bulk modulus forgets nothing.
 */
export type Memory = {
  readonly deviator: Float64Array;
  readonly pressure: Float64Array;
  readonly residual: Float64Array;
};

export function noMemory(glass: RelaxingGlass, cells: number): Memory {
  return {
    deviator: new Float64Array(cells * glass.shearPa.length * 3),
    pressure: new Float64Array(cells * glass.bulkPa.length),
    residual: new Float64Array(cells),
  };
}

/** A cell over one step: what is left of its stress, and how stiff it is against more strain, Pa. */
export type Stiffness = {
  readonly shear: Float64Array;
  readonly bulk: Float64Array;
  /** Stress that stays if nothing strains, three directions a cell. */
  readonly left: Float64Array;
};

/**
 * Lets every term fade over the step's reduced time and gives the moduli for strain that comes evenly
 * during it: each term fades by e^(−r) and takes up (1 − e^(−r))/r of new strain, r = Δξ/τ.
 */
export function fade(glass: RelaxingGlass, memory: Memory, reduced: Float64Array): Stiffness {
  const cells = reduced.length;
  const shear = new Float64Array(cells);
  const bulk = new Float64Array(cells).fill(glass.bulkResidualPa);
  const left = new Float64Array(3 * cells);
  for (let cell = 0; cell < cells; cell += 1) {
    const xi = reduced[cell] ?? 0;
    glass.shearPa.forEach((modulus, i) => {
      const r = xi / (glass.shearSeconds[i] ?? 1);
      const stays = Math.exp(-r);
      shear[cell] = (shear[cell] ?? 0) + modulus * takenUp(r, stays);
      for (let d = 0; d < 3; d += 1) {
        const at = (cell * glass.shearPa.length + i) * 3 + d;
        const value = (memory.deviator[at] ?? 0) * stays;
        memory.deviator[at] = value;
        left[3 * cell + d] = (left[3 * cell + d] ?? 0) + value;
      }
    });
    let pressure = memory.residual[cell] ?? 0;
    glass.bulkPa.forEach((modulus, i) => {
      const r = xi / (glass.bulkSeconds[i] ?? 1);
      const stays = Math.exp(-r);
      bulk[cell] = (bulk[cell] ?? 0) + modulus * takenUp(r, stays);
      const at = cell * glass.bulkPa.length + i;
      memory.pressure[at] = (memory.pressure[at] ?? 0) * stays;
      pressure += memory.pressure[at] ?? 0;
    });
    for (let d = 0; d < 3; d += 1) left[3 * cell + d] = (left[3 * cell + d] ?? 0) + pressure;
  }
  return { shear, bulk, left };
}

function takenUp(r: number, stays: number): number {
  return r < 1e-6 ? 1 - r / 2 : (1 - stays) / r;
}

/** Adds the strain of the step to every term: deviators `strain − mean`, pressure 3K·(mean − free expansion). */
export function remember(glass: RelaxingGlass, memory: Memory, reduced: Float64Array, strain: Float64Array, free: Float64Array): void {
  for (let cell = 0; cell < reduced.length; cell += 1) {
    const xi = reduced[cell] ?? 0;
    const mean = ((strain[3 * cell] ?? 0) + (strain[3 * cell + 1] ?? 0) + (strain[3 * cell + 2] ?? 0)) / 3;
    const swelling = 3 * (mean - (free[cell] ?? 0));
    glass.shearPa.forEach((modulus, i) => {
      const r = xi / (glass.shearSeconds[i] ?? 1);
      const share = 2 * modulus * takenUp(r, Math.exp(-r));
      for (let d = 0; d < 3; d += 1) {
        const at = (cell * glass.shearPa.length + i) * 3 + d;
        memory.deviator[at] = (memory.deviator[at] ?? 0) + share * ((strain[3 * cell + d] ?? 0) - mean);
      }
    });
    glass.bulkPa.forEach((modulus, i) => {
      const r = xi / (glass.bulkSeconds[i] ?? 1);
      const at = cell * glass.bulkPa.length + i;
      memory.pressure[at] = (memory.pressure[at] ?? 0) + modulus * takenUp(r, Math.exp(-r)) * swelling;
    });
    memory.residual[cell] = (memory.residual[cell] ?? 0) + glass.bulkResidualPa * swelling;
  }
}
