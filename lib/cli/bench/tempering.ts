/**
 * Cooling of a 4 mm float plate from 650 °C, 450 W/(m²·K) on both sides, air of 20 °C: A. Aronen &
 * R. Karvinen, Glass Structures & Engineering 3 (2018), points digitised from their figure by others.
 * Seconds; surface and mid-plane stress, MPa.
 */
export const QUENCH_4_MM = [
  { seconds: 0.2, surface: 16.8, middle: -1.9 },
  { seconds: 1, surface: 2.2, middle: -2.1 },
  { seconds: 2, surface: -10.6, middle: 0.1 },
  { seconds: 5, surface: -41.3, middle: 14.4 },
  { seconds: 10, surface: -61.3, middle: 27.1 },
  { seconds: 20, surface: -84.3, middle: 38.4 },
  { seconds: 50, surface: -111.0, middle: 52.2 },
  { seconds: 100, surface: -116.3, middle: 55.2 },
] as const;

/**
 * Permanent stress of slabs whose surface cools steadily from 620 °C, worked out by an independent
 * one-dimensional program on the same data with a conductivity of 1.2 W/(m·K). MPa.
 */
export const SLOW_COOLING = [
  { mm: 25, rate: 15, liquid: 9e-6, activation: 76_200, surface: -0.431, middle: 0.216 },
  { mm: 25, rate: 15, liquid: 25.1e-6, activation: 75_500, surface: -0.689, middle: 0.344 },
  { mm: 25, rate: 15, liquid: 25.1e-6, activation: 55_000, surface: -0.68, middle: 0.34 },
  { mm: 25, rate: 15, liquid: 32e-6, activation: 76_200, surface: -0.8, middle: 0.399 },
  { mm: 25, rate: 60, liquid: 32e-6, activation: 76_200, surface: -3.23, middle: 1.6 },
  { mm: 25, rate: 240, liquid: 32e-6, activation: 76_200, surface: -13.3, middle: 6.43 },
  { mm: 50, rate: 3.8, liquid: 32e-6, activation: 76_200, surface: -0.807, middle: 0.403 },
  { mm: 6, rate: 600, liquid: 32e-6, activation: 76_200, surface: -1.87, middle: 0.931 },
  { mm: 6, rate: 3600, liquid: 32e-6, activation: 76_200, surface: -11.3, middle: 5.56 },
] as const;
