import type { CatalogueGlassId, Relaxation } from "@/lib/domain/firing/casting-input";

/** log10 of the viscosity in Pa·s is A + B / (T − T0C), T in °C (Vogel, Fulcher, Tammann). */
export type Viscosity = { readonly A: number; readonly B: number; readonly T0C: number };

/**
 * "curve": the soda-lime curve of `lib/domain/heat/glass-heat.ts` times `scale`, with its step at the
 * transition; "constant": one figure at all temperatures.
 */
export type HeatCapacity =
  | { readonly kind: "curve"; readonly scale: number }
  | { readonly kind: "constant"; readonly jPerKgK: number };

/** A glass with nothing left out: what every calculation works with. */
export type Glass = {
  readonly id: CatalogueGlassId | "own";
  readonly name: string;
  readonly densityKgM3: number;
  readonly viscosity: Viscosity;
  /** Linear expansion per K, 20 to 300 °C. */
  readonly expansionSolidPerK: number;
  /** Linear expansion per K above the transition. */
  readonly expansionLiquidPerK: number;
  readonly youngGPa: number;
  readonly poisson: number;
  /** Conductivity c0 + c1·T in W/(m·K), T in K; above 400 °C an effective figure with radiation in it. */
  readonly conductivityWPerMK: readonly [c0: number, c1: number];
  readonly heatCapacity: HeatCapacity;
  /** Stress-optical coefficient in Brewster (1e-12 per Pa). */
  readonly stressOpticBrewster: number;
  readonly relaxation: Required<Relaxation>;
};
