export type InputRange = readonly [least: number, most: number, unit: string];

/**
 * What each number of a casting may be, both ends allowed. Wider than anything that is cast in a
 * workshop, narrower than a slip of a decimal point. Common practice, no source.
 */
export const INPUT_RANGES = {
  // Thinner is jewellery, thicker than this has no published schedule and no kiln.
  "piece.sizeMm": [2, 3000, "mm"],
  "piece.waxKg": [0.005, 2000, "kg"],
  "piece.waxDensityKgM3": [700, 1300, "kg/m³"],
  "piece.thickestMm": [2, 500, "mm"],
  "mould.wallMm": [10, 150, "mm"],
  "mould.plasterSilicaWater.0": [0.1, 100, "parts"],
  "mould.plasterSilicaWater.1": [0, 100, "parts"],
  "mould.plasterSilicaWater.2": [0.05, 100, "parts"],
  "feeder.diameterMm": [5, 200, "mm"],
  "feeder.lengthMm": [5, 500, "mm"],
  "feeder.waxKg": [0, 100, "kg"],
  "stress.permanentMPa": [0.02, 7, "MPa"],
  "stress.passingMPa": [0.05, 15, "MPa"],
  processC: [400, 1400, "°C"],
} as const satisfies Readonly<Record<string, InputRange>>;
