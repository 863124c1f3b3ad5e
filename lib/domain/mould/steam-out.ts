/**
 * Melting the wax out with steam.
 */
export type SteamOut = { readonly hours: number; readonly condensateKg: number };

/** kJ/(kg·K) of a wet mould of equal parts: 27 % free water, the rest mineral (worked out). */
const WET_MOULD_KJ_PER_KG_K = 1.82;
/** Wax: 2.3 kJ/(kg·K) over 60 K and 190 kJ/kg to melt (from memory, medium). */
const WAX_KJ_PER_KG = 2.3 * 60 + 190;
const STEAM_KJ_PER_KG = 2257;
/** Share of a steamer's power that reaches the mould in a leaky box (common practice). */
const EFFICIENCY = 0.5;
/** Diffusivity of the wet wall, m²/s (from memory, medium). */
const WET_WALL_M2_PER_S = 2.9e-7;
/** Fourier number at which the inner face has gone from 20 to 75 °C with 100 °C outside: slab, insulated inside. */
const WALL_FOURIER = 0.573;

/** Heat to bring mould and wax up, kJ. */
export function steamOutHeatKJ(wetMouldKg: number, waxKg: number): number {
  return wetMouldKg * WET_MOULD_KJ_PER_KG_K * 80 + waxKg * WAX_KJ_PER_KG;
}

/** Hours until the wax face of a wall is at 75 °C. */
export function wallHours(wallM: number): number {
  return (WALL_FOURIER * wallM ** 2) / WET_WALL_M2_PER_S / 3600;
}

/** Hours a steamer of the given power needs. */
export function powerHours(wetMouldKg: number, waxKg: number, powerKw: number): number {
  return steamOutHeatKJ(wetMouldKg, waxKg) / (powerKw * EFFICIENCY) / 3600;
}

/**
 * Hours to book a steamer: twice the slower of wall and power, half an hour to drain, half an hour to
 * cool, up to the next half hour and no less than two (common practice, no source).
 */
export function steamOut(wallM: number, wetMouldKg: number, waxKg: number, powerKw = 2): SteamOut {
  const slower = Math.max(wallHours(wallM), powerHours(wetMouldKg, waxKg, powerKw));
  const hours = Math.max(2, Math.ceil((2 * slower + 1) * 2) / 2);
  return { hours, condensateKg: steamOutHeatKJ(wetMouldKg, waxKg) / STEAM_KJ_PER_KG };
}
