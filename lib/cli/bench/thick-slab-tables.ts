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

/** A whole published program: soak, then ramps [to °C, K/h] to 21 °C. */
export type SlabProgram = SlabRow & {
  readonly glass: "soda-lime-casting" | "lead-crystal-45";
  readonly soakC: number;
  readonly soakHours: number;
  readonly ramps: readonly (readonly [toC: number, rateKPerH: number])[];
};

const program = (glass: SlabProgram["glass"], soakC: number, thicknessMm: number, soakHours: number, ramps: SlabProgram["ramps"]): SlabProgram => {
  let fromC = soakC;
  let hours = soakHours;
  for (const [toC, rate] of ramps) {
    hours += (fromC - toC) / rate;
    fromC = toC;
  }
  return { glass, thicknessMm, soakC, soakHours, ramps, hours };
};

/** The same table as above, all its columns: 482–427, 427–371 and 371–21 °C. */
export const SODA_LIME_PROGRAMS: readonly SlabProgram[] = (
  [[12, 2, 55, 99, 330], [19, 3, 25, 45, 150], [25, 4, 15, 27, 90], [38, 6, 6.7, 12, 40], [50, 8, 3.8, 6.8, 22], [62, 10, 2.4, 4.3, 14.4], [75, 12, 1.7, 3.1, 10], [100, 16, 0.94, 1.7, 5.6], [150, 24, 0.42, 0.76, 2.5], [200, 32, 0.23, 0.43, 1.4]] as const
).map(([mm, soak, first, second, third]) => program("soda-lime-casting", 482, mm, soak, [[427, first], [371, second], [21, third]]));

/** The same table as above, all its columns; the first range ends at 360, 360, 340 and 320 °C, the second 50 K lower. */
export const LEAD_CRYSTAL_PROGRAMS: readonly SlabProgram[] = (
  [[25, 4, 360, 16, 32, 96], [50, 8, 360, 4.3, 8.6, 25.8], [100, 16, 340, 1, 2, 6], [150, 24, 320, 0.5, 1, 3]] as const
).map(([mm, soak, firstTo, first, second, third]) => program("lead-crystal-45", 430, mm, soak, [[firstTo, first], [firstTo - 50, second], [21, third]]));
