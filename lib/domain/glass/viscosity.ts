import type { Viscosity } from "./glass";

/**
 * The viscosities, as log10 of Pa·s, that define a glass's fixed points: strain 10^13.5 and annealing
 * 10^12 (ASTM C336, C598), softening 10^6.6 (ASTM C338, Littleton).
 */
export const LOG_STRAIN = 13.5;
export const LOG_ANNEALING = 12;
export const LOG_SOFTENING = 6.6;

/**
 * log10 of the viscosity in Pa·s at a temperature in °C. Valid above T0C + 50 K; below the strain point
 * it is the extrapolated equilibrium viscosity, not that of a frozen glass.
 */
export function log10Viscosity({ A, B, T0C }: Viscosity, temperatureC: number): number {
  return A + B / (temperatureC - T0C);
}

/** The temperature in °C at which log10 of the viscosity in Pa·s has the given value (> A). */
export function temperatureAt({ A, B, T0C }: Viscosity, log10PaS: number): number {
  return T0C + B / (log10PaS - A);
}

/** Kelvin over which the viscosity changes tenfold, near the temperature in °C. */
export function kelvinPerDecade({ B, T0C }: Viscosity, temperatureC: number): number {
  return (temperatureC - T0C) ** 2 / B;
}

type Point = readonly [temperatureC: number, log10PaS: number];

/**
 * The one curve through three points, hottest first. Undefined when no curve of this form passes
 * through them: the viscosity must rise ever more steeply towards the cold.
 *
 * @example fitThrough([1319, 1.5], [731, 6.6], [545, 12]) // A −2.97, B 4937, T0 215
 */
export function fitThrough([t1, y1]: Point, [t2, y2]: Point, [t3, y3]: Point): Viscosity | undefined {
  const ratio = ((y3 - y2) / (y2 - y1)) * ((t1 - t2) / (t2 - t3));
  const T0C = (ratio * t3 - t1) / (ratio - 1);
  const B = ((y3 - y2) * (t2 - T0C) * (t3 - T0C)) / (t2 - t3);
  const A = y3 - B / (t3 - T0C);
  const usable = ratio > 1 && B > 0 && T0C < t3 && Number.isFinite(A);
  return usable ? { A, B, T0C } : undefined;
}

export function fixedPoints(viscosity: Viscosity): { strainC: number; annealingC: number; softeningC: number } {
  return {
    strainC: temperatureAt(viscosity, LOG_STRAIN),
    annealingC: temperatureAt(viscosity, LOG_ANNEALING),
    softeningC: temperatureAt(viscosity, LOG_SOFTENING),
  };
}
