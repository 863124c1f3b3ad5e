import type { Glass } from "@/lib/domain/glass/glass";
import { fixedPoints } from "@/lib/domain/glass/viscosity";
import { kelvin } from "@/lib/domain/units";

/** Conductivity, W/(m·K), at a temperature in °C. Above 400 °C it is effective: radiation is in it. */
export function conductivity(glass: Glass, temperatureC: number): number {
  const [c0, c1] = glass.conductivityWPerMK;
  return c0 + c1 * kelvin(temperatureC);
}

/** Soda-lime as a solid, J/(kg·K), T in K; the form used in tempering papers (from memory, high). 250 to 850 K. */
function solidCurve(temperatureK: number): number {
  return 893 + 0.4 * temperatureK - 1.8e7 / temperatureK ** 2;
}

/** Soda-lime as a liquid, J/(kg·K), T in K; the same papers. 800 to 1500 K. */
function liquidCurve(temperatureK: number): number {
  return 1433 + 6.5e-3 * temperatureK;
}

/**
 * Heat capacity, J/(kg·K). "solid" below the transition, "liquid" above; "freezing" is the mean of both,
 * used while a glass passes its transition, where its structure still gives up part of its heat.
 */
export function heatCapacity(glass: Glass, temperatureC: number, state: "solid" | "freezing" | "liquid"): number {
  if (glass.heatCapacity.kind === "constant") return glass.heatCapacity.jPerKgK;
  const T = kelvin(temperatureC);
  const { scale } = glass.heatCapacity;
  if (state === "solid") return scale * solidCurve(T);
  if (state === "liquid") return scale * liquidCurve(T);
  return (scale * (solidCurve(T) + liquidCurve(T))) / 2;
}

/** Thermal diffusivity k/(ρ·c), m²/s, at a temperature in °C. */
export function diffusivity(glass: Glass, temperatureC: number, state: "solid" | "freezing" | "liquid"): number {
  return conductivity(glass, temperatureC) / (glass.densityKgM3 * heatCapacity(glass, temperatureC, state));
}

/** Heat of one kg between room temperature and a process temperature, J/kg, by the mean of both states. */
export function heatBetween(glass: Glass, fromC: number, toC: number): number {
  const { annealingC } = fixedPoints(glass.viscosity);
  const solidTo = Math.min(toC, annealingC);
  const solid = heatCapacity(glass, (fromC + solidTo) / 2, "solid") * (solidTo - fromC);
  const liquid = toC > annealingC ? heatCapacity(glass, (annealingC + toC) / 2, "liquid") * (toC - annealingC) : 0;
  return solid + liquid;
}
