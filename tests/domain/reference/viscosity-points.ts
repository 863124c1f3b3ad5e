/**
 * Measured temperatures, °C, at log10 of the viscosity in Pa·s of 1.5, 6.6 and 12, as printed in
 * A. Fluegel, Glass Technology 48 (2007) 13, Table 12, for standard glasses of NIST and DGG.
 */
export const MEASURED_POINTS = {
  /** NIST SRM 711, lead-silica with 45 wt% PbO. */
  srm711: [[1.5, 1185], [6.6, 614], [12, 443]],
  /** DGG standard glass I, a float-like soda-lime. */
  dgg1: [[1.5, 1301], [6.6, 721], [12, 539]],
  /** NIST SRM 710a, soda-lime. */
  srm710a: [[1.5, 1319], [6.6, 731], [12, 545]],
} as const satisfies Record<string, readonly (readonly [log: number, celsius: number])[]>;
