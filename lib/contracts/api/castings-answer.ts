import { z } from "zod";
import { castingFields } from "@/lib/contracts/casting-input";
import { castingSchema } from "@/lib/contracts/casting";
import { day, id, instant } from "./shared";

/** What the calculation needs to know of a casting; the same document as the `plan` command line reads. */
export const castingInputBody = castingFields.meta({
  id: "CastingInput",
  description: "What a firing plan is worked out from. Lengths mm, masses kg, temperatures °C, stresses MPa. A glass of your own may leave out what it does not know. A piece of shape `mesh` names a mesh that was read in the browser by `meshId`; `file` is for the command line only.",
});

export const newCastingBody = castingSchema
  .extend({ input: castingInputBody, neededBy: day.nullable().default(null).describe("A day of the workshop's calendar, or null.") })
  .meta({ id: "NewCasting" });

export const newCastingAnswerSchema = z.object({ castingId: id }).meta({ id: "CastingMade" });

const casting = z
  .object({
    castingId: id,
    title: z.string(),
    owner: z.string(),
    mine: z.boolean(),
    neededBy: day.nullable(),
    next: z.object({
      step: z.enum(["book-run", "asked", "steam-out", "load", "in-kiln", "unload", "opened"]),
      at: instant.nullable(),
      overdue: z.boolean(),
    }),
    firingId: id.nullable().describe("The run it is booked for, if any."),
    kilnName: z.string().nullable(),
  })
  .meta({ id: "Casting" });

export const castingsQuery = z.strictObject({ all: z.enum(["true", "false"]).default("false").describe("true: everybody's, for a manager.") });
export const castingsAnswerSchema = z.object({ castings: z.array(casting) }).meta({ id: "CastingList" });
export type CastingsAnswer = z.infer<typeof castingsAnswerSchema>;
