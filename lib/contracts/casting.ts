import { z } from "zod";
import { castingInputSchema } from "./casting-input";
import { requestKeySchema } from "./runs";

const title = z
  .string()
  .trim()
  .min(1, "Give the casting a title, so that others recognise it on the calendar.")
  .max(80, "The title is longer than the 80 characters that fit on a door card.");

/** An ISO day of the workshop's own calendar, or null when there is no date. */
const neededBy = z.iso.date().nullable();

const described = { title, input: castingInputSchema, neededBy };

/** A casting as it is stored: what it is called, what the calculation needs, when it is needed. */
export const castingSchema = z.strictObject(described);
export type Casting = z.infer<typeof castingSchema>;

/** `requestKey` makes a doubled click describe one casting, not two. */
export const createCastingSchema = z.strictObject({ ...described, requestKey: requestKeySchema });

/** `version` is the one the person saw; a later one means somebody changed it meanwhile. */
export const changeCastingSchema = z.strictObject({
  ...described,
  castingId: z.uuid(),
  version: z.number().int().min(1),
});

export const withdrawCastingSchema = z.strictObject({ castingId: z.uuid() });
