/** What leaves a wet plaster face in still room air, kg/(m²·h) (from memory, low). */
const FAST_KG_PER_M2_H = 0.2;
const SLOW_KG_PER_M2_H = 0.05;

/**
 * Days a mould stands in room air until its free water is gone, from the fast to the slow end. Real
 * moulds take longer towards the end, as the wet front moves inwards.
 *
 * @example airDryingDays(4, 0.31) // 2.7 to 10.8 days
 */
export function airDryingDays(freeWaterKg: number, outsideM2: number): { from: number; to: number } {
  const perDay = 24 * outsideM2;
  return { from: freeWaterKg / (FAST_KG_PER_M2_H * perDay), to: freeWaterKg / (SLOW_KG_PER_M2_H * perDay) };
}
