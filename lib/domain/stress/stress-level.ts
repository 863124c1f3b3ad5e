import type { StressLevel } from "@/lib/domain/firing/casting-input";

export type StressLimits = {
  /** Largest permanent tension anywhere, MPa: the core, once cold. */
  readonly permanentMPa: number;
  /** Largest tension anywhere while cooling, MPa: the surface, the frozen compression already taken off. */
  readonly passingMPa: number;
};

/**
 * "careful": 0.40 MPa permanent, about 10 nm/cm in the core, the level that the published thick-slab
 * tables of two makers and the handbook schedules share (worked out from their rates); and 1.40 MPa
 * passing, a fifth of the 7 MPa that annealed glass is designed for in the long term (from memory, high).
 *
 * Passing tension is the whole surface tension at one moment: that of the running temperature
 * difference less the compression already frozen in. Taken so, 1.40 MPa gives a last rate of five to
 * six times the first, as the tables have it.
 */
export const CAREFUL: StressLimits = { permanentMPa: 0.4, passingMPa: 1.4 };

/**
 * Tension allowed in the core of cold glass that is heated, MPa: the old working stress of annealed
 * glass, 1000 psi (handbook figure, from memory, high). Heating is short and leaves nothing behind, so
 * neither limit of the stress level is meant for it.
 */
export const HEATING_TENSION_MPA = 7;

export function stressLimits(level: StressLevel): StressLimits {
  return level === "careful" ? CAREFUL : level;
}
