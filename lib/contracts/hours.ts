import { z } from "zod";

export const clockMinutes = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, "Write a time of day like 09:30.")
  .transform((text) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3)));

const HANDS = "Hands on duty must be a whole number of people, 1 to 50.";

const spanSchema = z.strictObject({
  /** 1 is Monday. */
  weekday: z.union([1, 2, 3, 4, 5, 6, 7].map((day) => z.literal(day))),
  opens: clockMinutes,
  /** Midnight at the end of the day may be written 24:00 or 00:00. */
  closes: clockMinutes.transform((minutes) => (minutes === 0 ? 24 * 60 : minutes)),
  /** People on duty who can lift. */
  hands: z.coerce.number({ error: HANDS }).int(HANDS).min(1, HANDS).max(50, HANDS),
});

export const setStaffedHoursSchema = z.strictObject({
  weekly: z.array(spanSchema).max(28, "At most four spans a day."),
});

const HOUR = "The hour must be a whole number, 0 to 23.";

/** From which full hour of the workshop's clock tomorrow is told of. */
export const setTomorrowHourSchema = z.strictObject({ hour: z.string({ error: HOUR }).regex(/^(\d|1\d|2[0-3])$/, HOUR).transform(Number) });

const date = z.iso.date("Choose a day.");

export const addClosureSchema = z.strictObject({
  from: date,
  /** The last day closed; left out or empty: one day only. */
  to: z.union([z.literal(""), date]).optional(),
  reason: z.string().trim().min(1, "Say why; it stands on everybody's calendar.").max(200, "A reason has at most 200 characters."),
});

export const removeClosureSchema = z.strictObject({ closureId: z.uuid(), reason: z.string().trim().max(500).optional() });
