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
