import { kelvin } from "@/lib/domain/units";
import type { RadialGrid } from "./radial-grid";

/** What a cell is made of, at its temperature in °C: conductivity W/(m·K) and heat capacity by volume J/(m³·K). */
export type Material = {
  readonly conductivity: (temperatureC: number) => number;
  readonly capacity: (temperatureC: number) => number;
};

/**
 * At the outside: the surface follows the kiln, or heat passes with a coefficient, W/(m²·K), and by radiation
 * where the surface has an emissivity (0 to 1; the kiln around it is large and black).
 */
export type Surface = "fixed" | { readonly hWPerM2K: number; readonly emissivity?: number | undefined };

/** Stefan and Boltzmann's constant, W/(m²·K⁴) (CODATA). */
const STEFAN_BOLTZMANN = 5.670374419e-8;

/** Coefficient of convection and radiation together at these temperatures, °C, W/(m²·K). */
export function filmCoefficient({ hWPerM2K, emissivity = 0 }: Exclude<Surface, "fixed">, surfaceC: number, kilnC: number): number {
  const own = kelvin(surfaceC);
  const kiln = kelvin(kilnC);
  return hWPerM2K + emissivity * STEFAN_BOLTZMANN * (own ** 2 + kiln ** 2) * (own + kiln);
}

export type HeatProblem = {
  readonly grid: RadialGrid;
  /** One per cell. */
  readonly materials: readonly Material[];
  readonly surface: Surface;
};

/**
 * One backward-Euler step of transient conduction: temperatures after `dt` s with the kiln at `kilnC`
 * then. Finite volumes; conductances between cells in series, properties at the temperatures before the
 * step. First order in time and stable for any step; `heatStep` makes it second order.
 */
export function eulerStep({ grid, materials, surface }: HeatProblem, before: Float64Array, dt: number, kilnC: number): Float64Array {
  const n = before.length;
  const lower = new Float64Array(n);
  const diagonal = new Float64Array(n);
  const upper = new Float64Array(n);
  const right = new Float64Array(n);
  const half = (i: number): number => ((grid.faces[i + 1] ?? 0) - (grid.faces[i] ?? 0)) / 2 / (materials[i]?.conductivity(before[i] ?? 0) ?? 1);
  for (let i = 0; i < n; i += 1) {
    const stored = ((materials[i]?.capacity(before[i] ?? 0) ?? 1) * (grid.volumes[i] ?? 0)) / dt;
    diagonal[i] = (diagonal[i] ?? 0) + stored;
    right[i] = (right[i] ?? 0) + stored * (before[i] ?? 0);
    if (i + 1 < n) {
      const flow = (grid.faceAreas[i + 1] ?? 0) / (half(i) + half(i + 1));
      diagonal[i] = (diagonal[i] ?? 0) + flow;
      diagonal[i + 1] = (diagonal[i + 1] ?? 0) + flow;
      upper[i] = -flow;
      lower[i + 1] = -flow;
    }
  }
  const film = surface === "fixed" ? 0 : 1 / filmCoefficient(surface, before[n - 1] ?? 0, kilnC);
  const flow = (grid.faceAreas[n] ?? 0) / (half(n - 1) + film);
  diagonal[n - 1] = (diagonal[n - 1] ?? 0) + flow;
  right[n - 1] = (right[n - 1] ?? 0) + flow * kilnC;
  return solveTridiagonal(lower, diagonal, upper, right);
}

export type HeatStep = {
  readonly temperatures: Float64Array;
  /** Largest difference between one whole and two half steps, K: what the extrapolation has taken away. */
  readonly errorK: number;
};

/** One step by extrapolation from one whole and two half backward-Euler steps: second order in time. */
export function heatStep(problem: HeatProblem, before: Float64Array, dt: number, kilnAt: (seconds: number) => number, from: number): HeatStep {
  const whole = eulerStep(problem, before, dt, kilnAt(from + dt));
  const half = eulerStep(problem, eulerStep(problem, before, dt / 2, kilnAt(from + dt / 2)), dt / 2, kilnAt(from + dt));
  let errorK = 0;
  const temperatures = half.map((value, i) => {
    const difference = value - (whole[i] ?? 0);
    errorK = Math.max(errorK, Math.abs(difference));
    return value + difference;
  });
  return { temperatures, errorK };
}

/** The temperature of the outside itself, °C, from the outermost cell. */
export function outsideC({ grid, materials, surface }: HeatProblem, temperatures: Float64Array, kilnC: number): number {
  if (surface === "fixed") return kilnC;
  const n = temperatures.length;
  const last = temperatures[n - 1] ?? 0;
  const half = ((grid.faces[n] ?? 0) - (grid.faces[n - 1] ?? 0)) / 2 / (materials[n - 1]?.conductivity(last) ?? 1);
  const film = 1 / filmCoefficient(surface, last, kilnC);
  return (last * film + kilnC * half) / (half + film);
}

/** Thomas's algorithm; the arrays are used up. */
export function solveTridiagonal(lower: Float64Array, diagonal: Float64Array, upper: Float64Array, right: Float64Array): Float64Array {
  const n = right.length;
  for (let i = 1; i < n; i += 1) {
    const factor = (lower[i] ?? 0) / (diagonal[i - 1] ?? 1);
    diagonal[i] = (diagonal[i] ?? 0) - factor * (upper[i - 1] ?? 0);
    right[i] = (right[i] ?? 0) - factor * (right[i - 1] ?? 0);
  }
  for (let i = n - 1; i >= 0; i -= 1) right[i] = ((right[i] ?? 0) - (upper[i] ?? 0) * (right[i + 1] ?? 0)) / (diagonal[i] ?? 1);
  return right;
}
