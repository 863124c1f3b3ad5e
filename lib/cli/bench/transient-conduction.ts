/**
 * Exact series for sudden convection at the surface (Carslaw & Jaeger, Conduction of Heat in Solids;
 * Incropera & DeWitt, tables of first terms; summed to 200 terms): what is left of the difference at
 * centre, surface and on average, for Biot number hL/k and Fourier number κt/L². Infinity: the surface is at
 * the kiln's temperature at once.
 */
export const STEP_COOLING = [
  { shape: "slab", biot: 0.5, fourier: 0.5, left: [0.86411, 0.68688, 0.80433] },
  { shape: "slab", biot: 1, fourier: 0.2, left: [0.95064, 0.64339, 0.8516] },
  { shape: "slab", biot: 1, fourier: 1, left: [0.53386, 0.34818, 0.4704] },
  { shape: "slab", biot: 5, fourier: 0.5, left: [0.52311, 0.13303, 0.38517] },
  { shape: "slab", biot: Infinity, fourier: 0.1, left: [0.94931, 0, 0.64318] },
  { shape: "slab", biot: Infinity, fourier: 0.5, left: [0.37078, 0, 0.23605] },
  { shape: "cylinder", biot: 0.5, fourier: 0.5, left: [0.71575, 0.566, 0.63949] },
  { shape: "cylinder", biot: 1, fourier: 0.2, left: [0.87017, 0.57023, 0.71852] },
  { shape: "cylinder", biot: 5, fourier: 0.5, left: [0.20755, 0.0477, 0.12046] },
  { shape: "cylinder", biot: Infinity, fourier: 0.1, left: [0.84836, 0, 0.39418] },
  { shape: "cylinder", biot: Infinity, fourier: 0.5, left: [0.08889, 0, 0.03838] },
  { shape: "ball", biot: 0.5, fourier: 0.5, left: [0.58004, 0.45735, 0.50498] },
  { shape: "ball", biot: 1, fourier: 0.2, left: [0.77231, 0.49591, 0.60181] },
  { shape: "ball", biot: 5, fourier: 0.5, left: [0.06568, 0.01381, 0.03136] },
  { shape: "ball", biot: Infinity, fourier: 0.1, left: [0.7071, 0, 0.22952] },
  { shape: "ball", biot: Infinity, fourier: 0.5, left: [0.01438, 0, 0.00437] },
] as const;

/** A steady ramp of the surface from rest: core and mean over surface, times κ/(q·L²); the same source. */
export const RAMP_FROM_REST = [
  { shape: "slab", fourier: 0.2, core: 0.18519, mean: 0.13273 },
  { shape: "slab", fourier: 0.5, core: 0.34973, mean: 0.23767 },
  { shape: "slab", fourier: 2, core: 0.49629, mean: 0.33097 },
  { shape: "cylinder", fourier: 0.2, core: 0.16295, mean: 0.08737 },
  { shape: "cylinder", fourier: 1, core: 0.24915, mean: 0.12463 },
  { shape: "ball", fourier: 0.2, core: 0.13854, mean: 0.05811 },
  { shape: "ball", fourier: 1, core: 0.16666, mean: 0.06666 },
] as const;
