import type { Glass } from "@/lib/domain/glass/glass";

/**
 * How much more stress stays in slowly cooled glass than the law of sudden freezing gives, because the
 * structure also shrinks while it freezes. It grows with the ratio of liquid to solid expansion:
 * 0.99 at 1, 1.58 at 2.76 and 1.83 at 3.56, worked out with a one-dimensional viscoelastic model on the
 * data of Aronen & Karvinen (2018) for slabs of 25 to 50 mm at 4 to 60 K/h; a straight line through 1
 * meets them within 0.02. Valid for ratios of 1 to 4.
 */
export function structuralFactor(glass: Pick<Glass, "expansionSolidPerK" | "expansionLiquidPerK">): number {
  const ratio = glass.expansionLiquidPerK / glass.expansionSolidPerK;
  return 1 + SLOPE * (ratio - 1);
}

const SLOPE = 0.325;
