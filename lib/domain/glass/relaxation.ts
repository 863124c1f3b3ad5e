import type { Relaxation } from "@/lib/domain/firing/casting-input";
import { kelvin } from "@/lib/domain/units";
import { LOG_ANNEALING, temperatureAt } from "./viscosity";
import type { Viscosity } from "./glass";

type Terms = readonly (readonly [weight: number, seconds: number])[];

/**
 * How float glass relaxes, as relative weights and times at 869 K. Published: Aronen & Karvinen,
 * "Effect of glass temperature before cooling and cooling rate on residual stresses in tempering",
 * Glass Structures & Engineering 3 (2018), Tables 1 and 2 (read in a public copy of the data).
 */
const STRUCTURE: Terms = [
  [0.05523, 5.965e-4],
  [0.08205, 1.077e-2],
  [0.1215, 0.1362],
  [0.2286, 1.505],
  [0.286, 6.747],
  [0.2266, 29.63],
];
const SHEAR: Terms = [
  [0.05523, 6.658e-5],
  [0.08205, 1.197e-3],
  [0.1215, 1.514e-2],
  [0.2286, 0.1672],
  [0.286, 0.7497],
  [0.22662, 3.292],
];
const BULK: Terms = [
  [0.0222, 5.009e-5],
  [0.0224, 9.945e-4],
  [0.0286, 2.022e-3],
  [0.2137, 1.925e-2],
  [0.394, 0.1199],
  [0.3191, 2.033],
];

/** The temperature, K, at which float glass of that set has 10^12 Pa·s: its shear time there is 10^12 / G0. */
const FLOAT_ANNEALING_K = 835.2;
const FLOAT_REFERENCE_K = 869;

export const FLOAT_RELAXATION: Required<Relaxation> = {
  referenceC: FLOAT_REFERENCE_K - kelvin(0),
  activationK: 76_200,
  nonlinearity: 0.5,
  structure: STRUCTURE,
  shear: SHEAR,
  bulk: BULK,
  bulkResidual: 0.18,
};

/**
 * The float set moved to another glass so that both have 10^12 Pa·s at the temperature of its own
 * annealing point. The shape of the spectrum is kept for want of a measured one: an assumption.
 * `activationK` in K (activation enthalpy over the gas constant).
 */
export function relaxationMovedTo(viscosity: Viscosity, activationK: number): Required<Relaxation> {
  const annealingK = kelvin(temperatureAt(viscosity, LOG_ANNEALING));
  const gap = FLOAT_RELAXATION.activationK * (1 / FLOAT_ANNEALING_K - 1 / FLOAT_REFERENCE_K);
  const referenceK = 1 / (1 / annealingK - gap / activationK);
  return { ...FLOAT_RELAXATION, activationK, referenceC: referenceK - kelvin(0) };
}
