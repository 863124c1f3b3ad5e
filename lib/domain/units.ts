/**
 * The few conversions and fixed temperatures the calculations share. Inside the domain: °C for
 * temperatures, K for differences, m, kg, s unless a name says otherwise.
 */
export const SECONDS_PER_HOUR = 3600;
export const HOURS_PER_WEEK = 168;
export const STANDARD_GRAVITY = 9.80665;

/** The workshop's air, for losses and for the end of cooling. */
export const ROOM_C = 20;

const ZERO_CELSIUS_K = 273.15;

export function kelvin(celsius: number): number {
  return celsius + ZERO_CELSIUS_K;
}

export function metres(millimetres: number): number {
  return millimetres / 1000;
}

export function millimetres(metresLong: number): number {
  return metresLong * 1000;
}

export function litres(cubicMetres: number): number {
  return cubicMetres * 1000;
}

/** K/s from K/h. */
export function perSecond(kelvinPerHour: number): number {
  return kelvinPerHour / SECONDS_PER_HOUR;
}

/** K/h from K/s. */
export function perHour(kelvinPerSecond: number): number {
  return kelvinPerSecond * SECONDS_PER_HOUR;
}
