import { z } from "zod";
import { REASON_MIN_CHARS, requestKeySchema } from "@/lib/contracts/runs";

const MOST_MOVES = 200;
const day = z.number().int().min(0).max(400);

/** What the manager wants held or does not want; days count from today on. A pin without place holds a run where it stands. */
export const wishesSchema = z.strictObject({
  pins: z.array(z.strictObject({ runId: z.uuid(), kilnId: z.uuid().optional(), day: day.optional() })).max(MOST_MOVES),
  forbids: z.array(z.strictObject({ runId: z.uuid(), kilnId: z.uuid().optional(), from: day.optional(), to: day.optional() })).max(MOST_MOVES),
});

export const waysOutSchema = z.strictObject({
  wishes: wishesSchema,
  /** Two seconds find good ways; ten mostly prove how good they are. */
  thorough: z.boolean(),
});

export const acceptSettlementSchema = z.strictObject({
  /** In the order in which they are made; a run is a firing, or an ask. */
  moves: z.array(z.strictObject({ runId: z.uuid(), kilnId: z.uuid(), kilnFrom: z.iso.datetime({ offset: true }) })).min(1).max(MOST_MOVES),
  /** Of all that the settlement was made from. */
  fingerprint: z.string().regex(/^[0-9a-f]{64}$/),
  reason: z.string().trim().min(REASON_MIN_CHARS, `Give a reason of at least ${REASON_MIN_CHARS} characters; everybody who is moved reads it.`).max(500),
  requestKey: requestKeySchema,
});
