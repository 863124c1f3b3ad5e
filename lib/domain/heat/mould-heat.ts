import { SECONDS_PER_HOUR } from "@/lib/domain/units";

/** Fired plaster and silica: conductivity 0.3–0.5 W/(m·K) and diffusivity 2.5–4e-7 m²/s (from memory, medium). */
const CONDUCTIVITY_W_PER_M_K = 0.4;
const DIFFUSIVITY_M2_PER_S = 3e-7;

/** Largest difference across a wall while the kiln ramps, K, so that the mould does not crack (common practice, no source). */
export const WALL_DIFFERENCE_K = 60;

/**
 * Hours by which the glass follows the kiln through a mould wall at a steady rate: the glass's own heat
 * through the wall's resistance, and the wall's own heat, ρcL·b/k + b²/2κ. L is volume over surface of
 * the piece (half the thickness of a slab), b the wall, both m; `glassHeatJPerM3K` is ρc.
 */
export function lagHours(wallM: number, glassHeatJPerM3K: number, volumeOverSurfaceM: number): number {
  const glass = (glassHeatJPerM3K * volumeOverSurfaceM * wallM) / CONDUCTIVITY_W_PER_M_K;
  return (glass + wallM ** 2 / (2 * DIFFUSIVITY_M2_PER_S)) / SECONDS_PER_HOUR;
}

/** The wall, m, through which glass follows so many hours late: {@link lagHours} the other way round. */
export function wallOfLagM(lag: number, glassHeatJPerM3K: number, volumeOverSurfaceM: number): number {
  const glass = (glassHeatJPerM3K * volumeOverSurfaceM * DIFFUSIVITY_M2_PER_S) / CONDUCTIVITY_W_PER_M_K;
  return Math.sqrt(glass ** 2 + 2 * DIFFUSIVITY_M2_PER_S * lag * SECONDS_PER_HOUR) - glass;
}

/** The fastest steady ramp, K/h, that keeps an empty wall within its allowed difference, q·b²/2κ. */
export function wallRateKPerH(wallM: number): number {
  return ((2 * DIFFUSIVITY_M2_PER_S * WALL_DIFFERENCE_K) / wallM ** 2) * SECONDS_PER_HOUR;
}
