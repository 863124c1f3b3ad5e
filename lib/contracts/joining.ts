import { z } from "zod";
import { requestKeySchema } from "./runs";

/** A proposal waits so long for its answers, or until the first lift of the joined run if that is sooner. */
export const ANSWER_DAYS = 5;

export const proposeJoiningSchema = z.strictObject({
  firingId: z.uuid(),
  castingId: z.uuid(),
  /** The firing as the person saw it. */
  version: z.number().int().min(1),
  requestKey: requestKeySchema,
});

export const answerJoiningSchema = z.strictObject({ joiningId: z.uuid(), accepts: z.boolean() });

export const withdrawJoiningSchema = z.strictObject({ joiningId: z.uuid() });

export const leaveFiringSchema = z.strictObject({ firingId: z.uuid(), castingId: z.uuid(), reason: z.string().trim().max(500).optional() });
