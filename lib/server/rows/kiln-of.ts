import type { Temporal } from "temporal-polyfill";
import { toInstant } from "@/lib/server/clock";

type Booked = { readonly purpose: string };

/** The booking of the kiln among the bookings of a firing; undefined for one that holds no kiln any more. */
export function kilnOf<B extends Booked>({ bookings }: { readonly bookings: readonly B[] }): B | undefined {
  return bookings.find(({ purpose }) => purpose === "kiln");
}

/**
 * When the kiln of a firing that stands on the calendar begins.
 * @throws when it holds none, which the database never lets a standing firing do
 */
export function kilnFromOf(firing: { readonly firingId: string; readonly bookings: readonly (Booked & { readonly startsAt: Date })[] }): Temporal.Instant {
  const kiln = kilnOf(firing);
  if (kiln === undefined) throw new Error(`firing ${firing.firingId} stands and holds no kiln`);
  return toInstant(kiln.startsAt);
}
