import type { Glass } from "@/lib/domain/glass/glass";
import { kelvin } from "@/lib/domain/units";

/** The moduli and times of a glass as the stress of one point needs them, in Pa and s at the reference temperature. */
export type RelaxingGlass = {
  readonly referenceK: number;
  readonly activationK: number;
  readonly nonlinearity: number;
  readonly expansionSolid: number;
  readonly expansionLiquid: number;
  readonly structureWeights: Float64Array;
  readonly structureSeconds: Float64Array;
  readonly shearPa: Float64Array;
  readonly shearSeconds: Float64Array;
  readonly bulkPa: Float64Array;
  readonly bulkSeconds: Float64Array;
  readonly bulkResidualPa: number;
  /** The longest time of all terms, s at the reference: after many of these nothing is left to relax. */
  readonly slowestSeconds: number;
};

type Terms = readonly (readonly [weight: number, seconds: number])[];

/** Weights are taken relative to their sum, so that a rounded table neither creates nor loses stiffness. */
export function relaxingGlass(glass: Glass): RelaxingGlass {
  const { relaxation, youngGPa, poisson } = glass;
  const shear = (youngGPa * 1e9) / (2 * (1 + poisson));
  const bulk = (youngGPa * 1e9) / (3 * (1 - 2 * poisson));
  const share = (terms: Terms, of: number): Float64Array => {
    const sum = terms.reduce((total, [weight]) => total + weight, 0);
    return Float64Array.from(terms, ([weight]) => (weight / sum) * of);
  };
  const seconds = (terms: Terms): Float64Array => Float64Array.from(terms, ([, time]) => time);
  return {
    referenceK: kelvin(relaxation.referenceC),
    activationK: relaxation.activationK,
    nonlinearity: relaxation.nonlinearity,
    expansionSolid: glass.expansionSolidPerK,
    expansionLiquid: glass.expansionLiquidPerK,
    structureWeights: share(relaxation.structure, 1),
    structureSeconds: seconds(relaxation.structure),
    shearPa: share(relaxation.shear, shear),
    shearSeconds: seconds(relaxation.shear),
    bulkPa: share(relaxation.bulk, bulk * (1 - relaxation.bulkResidual)),
    bulkSeconds: seconds(relaxation.bulk),
    bulkResidualPa: bulk * relaxation.bulkResidual,
    slowestSeconds: Math.max(...[relaxation.structure, relaxation.shear, relaxation.bulk].flatMap((terms) => terms.map(([, time]) => time))),
  };
}

/**
 * How much faster than at the reference everything relaxes: Tool–Narayanaswamy,
 * φ = exp{(H/R)·[1/Tref − x/T − (1−x)/Tf]}, temperatures in K.
 */
export function shift(glass: RelaxingGlass, temperatureK: number, fictiveK: number): number {
  const { activationK, referenceK, nonlinearity } = glass;
  return Math.exp(activationK * (1 / referenceK - nonlinearity / temperatureK - (1 - nonlinearity) / fictiveK));
}

/** Relaxations per second of the slowest term beyond which steps need not resolve it, and below which it stands still. */
const FLUID_PER_SECOND = 100;
const FROZEN_PER_SECOND = 4e-16;

/** Thirty years: below the temperature where the slowest term takes as long, no glass is at equilibrium. */
const NEVER_PER_SECOND = 1e-9;

/** The temperature, K, at which the slowest term of the equilibrium glass relaxes so many times a second. */
function temperatureOf(glass: RelaxingGlass, perSecond: number): number {
  const inverse = 1 / glass.referenceK - Math.log(perSecond * glass.slowestSeconds) / glass.activationK;
  return inverse > 0 ? 1 / inverse : Infinity;
}

/**
 * The lowest temperature, K, at which a glass can have come to equilibrium. A colder one is taken to have the
 * structure of this temperature: with that of its own, the shift would keep it solid in any furnace.
 */
export function coldestEquilibriumK(glass: RelaxingGlass): number {
  return temperatureOf(glass, NEVER_PER_SECOND);
}

/** Where the equilibrium glass passes from fluid to frozen for any firing, K. */
export function transitionK(glass: RelaxingGlass): { readonly fromK: number; readonly toK: number } {
  return { fromK: temperatureOf(glass, FROZEN_PER_SECOND), toK: temperatureOf(glass, FLUID_PER_SECOND) };
}
