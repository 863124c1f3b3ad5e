import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { offsetAt } from "@/lib/domain/time/zone-days";

/** Bookings start on quarter hours of the workshop's own clock. */
export const GRID_MINUTES = 15;

/**
 * The first quarter hour of the local clock at or after an instant (epoch milliseconds).
 * Counted in the zone because a zone may stand any number of minutes off UTC.
 */
export function ceilToGrid(epochMs: number, timeZone: string): number {
  const grid = GRID_MINUTES * MS_PER_MINUTE;
  const shift = offsetAt(Math.ceil(epochMs), timeZone);
  return Math.ceil((epochMs + shift) / grid) * grid - shift;
}

export function isOnGrid(epochMs: number, timeZone: string): boolean {
  return ceilToGrid(epochMs, timeZone) === epochMs;
}
