import { shift, type RelaxingGlass } from "./relaxing-glass";

/** The structure of the glass in every cell: partial fictive temperatures, K, and their weighted mean. */
export type Structure = {
  readonly partial: Float64Array;
  readonly fictive: Float64Array;
  /** Reduced time of the step at hand, s at reference; written anew by each. */
  readonly reduced: Float64Array;
};

/**
 * So many of the slowest time leave a thousand-millionth of any stress. A step counts no more: far above the
 * transition the shear modulus would sink below the rounding of the bulk modulus beside it.
 */
const RELAXED_FULLY = 1e9;

/** At equilibrium: every fictive temperature is the temperature itself. */
export function equilibrium(glass: RelaxingGlass, temperaturesK: Float64Array): Structure {
  const terms = glass.structureWeights.length;
  return {
    partial: Float64Array.from({ length: terms * temperaturesK.length }, (_, i) => temperaturesK[Math.floor(i / terms)] ?? 0),
    fictive: temperaturesK.slice(),
    reduced: new Float64Array(temperaturesK.length),
  };
}

/** Gives `to` the structure of `from`, so that another path can be tried from the same moment. */
export function copyStructure(from: Structure, to: Structure): void {
  to.partial.set(from.partial);
  to.fictive.set(from.fictive);
}

/**
 * One step of structural relaxation in every cell (Markovsky & Soules, Journal of the American Ceramic
 * Society 67 (1984) C-56; stable for any step): Tf_i ← (λ_i·Tf_i + T·Δξ)/(λ_i + Δξ), with the reduced
 * time Δξ = dt·(φ before + φ after)/2. Changes `structure` and returns Δξ of each cell, s at reference.
 */
export function relaxStructure(glass: RelaxingGlass, structure: Structure, beforeK: Float64Array, afterK: Float64Array, dt: number): Float64Array {
  const { structureWeights, structureSeconds } = glass;
  const terms = structureWeights.length;
  for (let cell = 0; cell < afterK.length; cell += 1) {
    const temperature = afterK[cell] ?? 0;
    const before = beforeK[cell] ?? temperature;
    const fictive = structure.fictive[cell] ?? temperature;
    const guess = fictive + (temperature - before) * Math.min(1, shift(glass, temperature, fictive) * dt);
    const passed = (dt * (shift(glass, before, fictive) + shift(glass, temperature, guess))) / 2;
    const reduced = Math.min(passed, RELAXED_FULLY * glass.slowestSeconds);
    let mean = 0;
    for (let i = 0; i < terms; i += 1) {
      const at = cell * terms + i;
      const time = structureSeconds[i] ?? 1;
      const value = (time * (structure.partial[at] ?? temperature) + temperature * reduced) / (time + reduced);
      structure.partial[at] = value;
      mean += (structureWeights[i] ?? 0) * value;
    }
    structure.fictive[cell] = mean;
    structure.reduced[cell] = reduced;
  }
  return structure.reduced;
}
