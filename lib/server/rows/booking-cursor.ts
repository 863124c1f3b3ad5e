import { z } from "zod";

/** Where a list of bookings goes on: behind this one. */
export type BookingCursor = { readonly startsAt: Date; readonly bookingId: string };

const Written = z.tuple([z.iso.datetime(), z.uuid()]);

export function cursorOf({ startsAt, bookingId }: BookingCursor): string {
  return `${startsAt.toISOString()}_${bookingId}`;
}

/** null when it is none of ours. */
export function readCursor(text: string): BookingCursor | null {
  const written = Written.safeParse(text.split("_"));
  return written.success ? { startsAt: new Date(written.data[0]), bookingId: written.data[1] } : null;
}
