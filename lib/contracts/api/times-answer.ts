import { z } from "zod";
import { day, flag, id, instant, movement, purpose } from "./shared";

const part = z.object({ purpose, equipmentName: z.string(), from: instant, to: instant, hands: z.number().int().describe("People needed.") });
const lift = z.object({
  what: movement, from: instant, to: instant, kg: z.number(), hands: z.number().int(),
  trolleyName: z.string().nullable(), flag, hot: z.boolean(), wet: z.boolean(),
});

const run = z
  .object({
    kilnFrom: instant.describe("Door closed. Book with this."),
    kilnTo: instant.describe("Free for the next load."),
    readyAt: instant.describe("Unloaded."),
    steamFrom: instant.nullable().describe("Book with this too, unless null."),
    daysLate: z.number().int().describe("Days after the needed-by date; 0 when in time or without one."),
    parts: z.array(part),
    lifts: z.array(lift),
  })
  .meta({ id: "OfferedRun" });

const kiln = z.object({
  kilnId: id,
  kilnName: z.string(),
  reservation: z.object({ hours: z.number(), kilnWeeks: z.number() }).describe("How long the firing plan for this kiln holds it."),
  runs: z.array(run).describe("Earliest first."),
  whyNot: z.string().nullable().describe("One line when nothing is offered."),
});

export const timesQuery = z.strictObject({ notBefore: day.optional().describe("Today or later; without it, from now on.") });

const offers = { kilns: z.array(kiln).describe("Soonest ready first."), refusals: z.array(z.string()).describe("What stands in the way on every kiln.") };

export const timesAnswerSchema = z.object({ castingId: id, neededBy: day.nullable(), ...offers }).meta({ id: "OfferedTimes" });
export type TimesAnswer = z.infer<typeof timesAnswerSchema>;

export const moveTimesAnswerSchema = z
  .object({ firingId: id, version: z.number().int().describe("Move with this."), neededBy: day.nullable(), ...offers })
  .meta({ id: "OfferedMoves" });
export type MoveTimesAnswer = z.infer<typeof moveTimesAnswerSchema>;
