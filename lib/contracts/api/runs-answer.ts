import { z } from "zod";
import { bookRunSchema, cancelRunSchema, moveRunSchema } from "@/lib/contracts/runs";
import { day, firingStatus, flag, id, instant, movement, purpose } from "./shared";

/** The same contracts as the forms post; what stands in the address or in a header is taken out. */
export const bookRunBody = bookRunSchema.omit({ requestKey: true }).meta({ id: "BookRun", description: "One of the runs that were offered." });
export const moveRunBody = moveRunSchema.omit({ requestKey: true, firingId: true }).meta({ id: "MoveRun", description: "`version` is that of the run as you saw it. A reason is needed when the run is somebody else's." });
export const cancelRunBody = cancelRunSchema.omit({ requestKey: true, firingId: true }).meta({ id: "CancelRun" });

export const bookedAnswerSchema = z.object({ firingId: id }).meta({ id: "RunBooked" });
export const movedAnswerSchema = z.object({ firingId: id, kilnFrom: instant, kilnTo: instant }).meta({ id: "RunMoved" });
export const cancelledAnswerSchema = z.object({ firingId: id, castingId: id }).meta({ id: "RunCancelled" });

export const runAnswerSchema = z
  .object({
    firingId: id,
    castingId: id,
    title: z.string(),
    owner: z.string(),
    mine: z.boolean(),
    status: firingStatus,
    version: z.number().int(),
    neededBy: day.nullable(),
    kilnId: id,
    kilnName: z.string(),
    kilnFrom: instant,
    kilnTo: instant,
    expectedEnd: instant.nullable(),
    endedReason: z.string().nullable(),
    parts: z.array(z.object({ purpose, equipmentName: z.string(), from: instant, to: instant })),
    lifts: z.array(z.object({ what: movement, from: instant, to: instant, kg: z.number(), hands: z.number().int(), trolleyName: z.string().nullable(), flag })),
  })
  .meta({ id: "Run", description: "All bookings that one firing needs. A run that ended shows what it last was." });
export type RunAnswer = z.infer<typeof runAnswerSchema>;
