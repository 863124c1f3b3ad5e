import { z } from "zod";

/** An instant in UTC, e.g. "2027-01-05T08:30:00Z". Intervals are half-open: their end is not part of them. */
export const instant = z.iso.datetime({ offset: true });
export const id = z.uuid();
/** A day of the workshop's own calendar. */
export const day = z.iso.date();

export const purpose = z.enum(["steam-out", "load", "kiln", "unload"]);
export const movement = z.enum(["to-steamer", "from-steamer", "load", "unload"]);
export const flag = z.enum(["none", "amber", "red"]).describe("amber: above the cautious filter figure; red: a mechanical aid is needed.");
export const firingStatus = z.enum(["held", "planned", "started", "opened", "cancelled", "released", "lapsed"]).describe("held: booked only until heldUntil, and free from then on unless its holder confirms it.");
