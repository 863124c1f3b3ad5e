import { z } from "zod";
import { day, firingStatus, flag, id, instant, movement, purpose } from "./shared";

export const MOST_BOOKINGS = 1000;
/** Weeks that are shown when no last day is given. */
export const BOOKING_WEEKS = 12;

export const bookingsQuery = z.strictObject({
  from: day.optional().describe("First day; without it, today."),
  to: day.optional().describe(`First day after; without it, ${BOOKING_WEEKS} weeks later.`),
  equipmentId: id.optional(),
  mine: z.enum(["true", "false"]).default("false").describe("true: only those of the token's owner."),
  limit: z.coerce.number().int().min(1).max(MOST_BOOKINGS).default(MOST_BOOKINGS),
  after: z.string().max(200).optional().describe("`next` of the answer before, for the bookings that follow."),
});
export type BookingsQuery = z.infer<typeof bookingsQuery>;

const booking = z
  .object({
    bookingId: id,
    firingId: id,
    castingId: id,
    title: z.string(),
    owner: z.string(),
    mine: z.boolean(),
    status: firingStatus,
    heldUntil: instant.nullable().describe("Until when it is only held; null when it is booked."),
    purpose,
    equipmentId: id,
    equipmentName: z.string(),
    from: instant,
    to: instant,
  })
  .meta({ id: "Booking" });

export const bookingsAnswerSchema = z
  .object({ timeZone: z.string(), from: day, to: day, bookings: z.array(booking).describe("In order of their start."), next: z.string().nullable().describe("null: there are no more.") })
  .meta({ id: "BookingList" });
export type BookingsAnswer = z.infer<typeof bookingsAnswerSchema>;

export const liftsQuery = z.strictObject({ day: day.optional().describe("Without it, the next staffed day after today.") });

const lift = z
  .object({
    liftId: id,
    firingId: id,
    what: movement,
    casting: z.string(),
    owner: z.string(),
    from: instant,
    to: instant,
    kg: z.number(),
    hands: z.number().int().describe("People needed."),
    trolley: z.string().nullable(),
    fromPlace: z.string(),
    toPlace: z.string(),
    mouldState: z.enum(["wet", "dry", "fired"]),
    hot: z.boolean(),
    wet: z.boolean(),
    flag,
    why: z.string(),
    onlyHeld: z.boolean().describe("Its run is not booked yet, and may lapse."),
  })
  .meta({ id: "Lift" });

export const liftsAnswerSchema = z
  .object({ day, timeZone: z.string(), closedBecause: z.string().nullable(), lifts: z.array(lift) })
  .meta({ id: "LiftList" });
export type LiftsAnswer = z.infer<typeof liftsAnswerSchema>;
