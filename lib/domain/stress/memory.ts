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
  /** How much of new strain each term takes up over the step at hand, Pa; set by `fade`, used by `remember`. */
  readonly shearTakes: Float64Array;
  readonly bulkTakes: Float64Array;
  /** What `fade` answers with; written anew by each step, as making new arrays would cost more than filling them. */
  readonly stiffness: Stiffness;
};

export function noMemory(glass: RelaxingGlass, cells: number): Memory {
  const [shear, bulk] = [cells * glass.shearPa.length, cells * glass.bulkPa.length];
  return {
    deviator: new Float64Array(shear * 3),
    pressure: new Float64Array(bulk),
    residual: new Float64Array(cells),
    shearTakes: new Float64Array(shear),
    bulkTakes: new Float64Array(bulk),
    stiffness: { shear: new Float64Array(cells), bulk: new Float64Array(cells), left: new Float64Array(3 * cells) },
  };
}

/** Makes `to` remember what `from` does, so that another path can be tried from the same moment. */
export function copyMemory(from: Memory, to: Memory): void {
  to.deviator.set(from.deviator);
  to.pressure.set(from.pressure);
  to.residual.set(from.residual);
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
 * during it: each term fades by e^(−r) and takes up (1 − e^(−r))/r of new strain, r = Δξ/τ. The answer holds
 * until the next call.
 */
export function fade(glass: RelaxingGlass, memory: Memory, reduced: Float64Array): Stiffness {
  const { shear, bulk, left } = memory.stiffness;
  for (let cell = 0; cell < reduced.length; cell += 1) {
    const xi = reduced[cell] ?? 0;
    shear[cell] = fadeShear(glass, memory, cell, xi, left);
    bulk[cell] = glass.bulkResidualPa + fadeBulk(glass, memory, cell, xi, left);
  }
  return memory.stiffness;
}

function fadeShear({ shearPa, shearSeconds }: RelaxingGlass, { deviator, shearTakes }: Memory, cell: number, xi: number, left: Float64Array): number {
  const terms = shearPa.length;
  let modulus = 0;
  let radial = 0;
  let hoop = 0;
  let axial = 0;
  for (let i = 0; i < terms; i += 1) {
    const r = xi / (shearSeconds[i] ?? 1);
    const stays = Math.exp(-r);
    const takes = (shearPa[i] ?? 0) * takenUp(r, stays);
    shearTakes[cell * terms + i] = takes;
    modulus += takes;
    const at = (cell * terms + i) * 3;
    radial += deviator[at] = (deviator[at] ?? 0) * stays;
    hoop += deviator[at + 1] = (deviator[at + 1] ?? 0) * stays;
    axial += deviator[at + 2] = (deviator[at + 2] ?? 0) * stays;
  }
  left[3 * cell] = radial;
  left[3 * cell + 1] = hoop;
  left[3 * cell + 2] = axial;
  return modulus;
}

function fadeBulk({ bulkPa, bulkSeconds }: RelaxingGlass, { pressure, residual, bulkTakes }: Memory, cell: number, xi: number, left: Float64Array): number {
  const terms = bulkPa.length;
  let modulus = 0;
  let stays = residual[cell] ?? 0;
  for (let i = 0; i < terms; i += 1) {
    const r = xi / (bulkSeconds[i] ?? 1);
    const share = Math.exp(-r);
    const takes = (bulkPa[i] ?? 0) * takenUp(r, share);
    const at = cell * terms + i;
    bulkTakes[at] = takes;
    modulus += takes;
    stays += pressure[at] = (pressure[at] ?? 0) * share;
  }
  for (let d = 0; d < 3; d += 1) left[3 * cell + d] = (left[3 * cell + d] ?? 0) + stays;
  return modulus;
}

function takenUp(r: number, stays: number): number {
  return r < 1e-6 ? 1 - r / 2 : (1 - stays) / r;
}

/** Adds the strain of the step that `fade` began to every term: deviators `strain − mean`, pressure 3K·(mean − free expansion). */
export function remember(glass: RelaxingGlass, memory: Memory, strain: Float64Array, free: Float64Array): void {
  const { deviator, pressure, residual, shearTakes, bulkTakes } = memory;
  const shears = glass.shearPa.length;
  const bulks = glass.bulkPa.length;
  for (let cell = 0; cell < free.length; cell += 1) {
    const radial = strain[3 * cell] ?? 0;
    const hoop = strain[3 * cell + 1] ?? 0;
    const axial = strain[3 * cell + 2] ?? 0;
    const mean = (radial + hoop + axial) / 3;
    const swelling = 3 * (mean - (free[cell] ?? 0));
    for (let i = cell * shears; i < (cell + 1) * shears; i += 1) {
      const share = 2 * (shearTakes[i] ?? 0);
      deviator[3 * i] = (deviator[3 * i] ?? 0) + share * (radial - mean);
      deviator[3 * i + 1] = (deviator[3 * i + 1] ?? 0) + share * (hoop - mean);
      deviator[3 * i + 2] = (deviator[3 * i + 2] ?? 0) + share * (axial - mean);
    }
    for (let i = cell * bulks; i < (cell + 1) * bulks; i += 1) pressure[i] = (pressure[i] ?? 0) + (bulkTakes[i] ?? 0) * swelling;
    residual[cell] = (residual[cell] ?? 0) + glass.bulkResidualPa * swelling;
  }
}
