/**
 * Published annealing schedules for slabs that cool from both faces: thickness in mm, hours from the
 * start of the soak until 21 °C, where the tables end (the sum of the printed row).
 */
export type SlabRow = { readonly thicknessMm: number; readonly hours: number };

/** Bullseye Glass Co., "Annealing Thick Slabs" (table for casting glass of expansion 90, soak at 482 °C); from memory, high, several rows met in later quotations. */
export const SODA_LIME_THICK_SLABS: readonly SlabRow[] = [
  { thicknessMm: 12, hours: 4.6 },
  { thicknessMm: 19, hours: 8.8 },
  { thicknessMm: 25, hours: 13.6 },
  { thicknessMm: 38, hours: 27.6 },
  { thicknessMm: 50, hours: 46.6 },
  { thicknessMm: 62, hours: 70.2 },
  { thicknessMm: 75, hours: 97.4 },
  { thicknessMm: 100, hours: 170 },
  { thicknessMm: 150, hours: 369 },
  { thicknessMm: 200, hours: 651 },
];

/** Gaffer Glass, "Annealing schedule for casting crystal" (45 % lead, soak at 430 °C, semi-open and open forms). */
export const LEAD_CRYSTAL_THICK_SLABS: readonly SlabRow[] = [
  { thicknessMm: 25, hours: 12.9 },
  { thicknessMm: 50, hours: 41.3 },
  { thicknessMm: 100, hours: 175.8 },
  { thicknessMm: 150, hours: 377 },
];
