import { Temporal } from "temporal-polyfill";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";

/** Bookings start on quarter hours of the workshop's own clock. */
export const GRID_MINUTES = 15;

/**
 * The first quarter hour of the local clock at or after an instant (epoch milliseconds).
 * Counted in the zone because a zone may stand any number of minutes off UTC.
 */
export function ceilToGrid(epochMs: number, timeZone: string): number {
  const instant = Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs));
  const offsetMinutes = instant.toZonedDateTimeISO(timeZone).offsetNanoseconds / 6e10;
  const grid = GRID_MINUTES * MS_PER_MINUTE;
  const shift = offsetMinutes * MS_PER_MINUTE;
  return Math.ceil((epochMs + shift) / grid) * grid - shift;
}

export function isOnGrid(epochMs: number, timeZone: string): boolean {
  return ceilToGrid(epochMs, timeZone) === epochMs;
}
