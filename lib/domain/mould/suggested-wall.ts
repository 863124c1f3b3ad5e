const THINNEST_MM = 25;
const THICKEST_MM = 75;

/**
 * A mould wall to begin with, mm, for a mass of glass: 20 + 12·∛(kg), within 25 and 75, to the next
 * whole millimetre. Common practice, no source: about 30 mm at 1 kg, 45 mm at 8 kg, 55 mm at 27 kg. Walls are set by
 * cracking and handling; the pressure of the glass on them is small. A suggestion: any wall may be
 * typed instead. NaN and masses below zero give the thinnest.
 *
 * @example suggestedWallMm(8) // 44
 */
export function suggestedWallMm(glassKg: number): number {
  if (!(glassKg > 0)) return THINNEST_MM;
  return Math.min(THICKEST_MM, Math.max(THINNEST_MM, Math.ceil(20 + 12 * Math.cbrt(glassKg) - 1e-9)));
}
