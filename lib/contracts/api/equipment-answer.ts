import { z } from "zod";
import { kilnLimitsSchema, steamerLimitsSchema, trolleyLimitsSchema } from "@/lib/contracts/equipment";
import { day, id, instant } from "./shared";

const outage = z.object({ from: instant, to: instant.nullable().describe("null: no end is known."), reason: z.string() });
const common = {
  equipmentId: id, name: z.string(),
  inspectionDue: day.nullable().describe("The last day of use before it is inspected again; null when nothing falls due."),
  outages: z.array(outage).describe("Now and to come."),
};

const piece = z
  .discriminatedUnion("kind", [
    z.object({ kind: z.literal("kiln"), ...common, limits: kilnLimitsSchema, needsInduction: z.boolean().describe("Only for castings of who was shown it.") }),
    z.object({ kind: z.literal("steamer"), ...common, limits: steamerLimitsSchema }),
    z.object({ kind: z.literal("trolley"), ...common, limits: trolleyLimitsSchema }),
  ])
  .meta({ id: "Equipment" });

export const equipmentAnswerSchema = z
  .object({ workshop: z.string(), timeZone: z.string().describe("Of the workshop's calendar and clock."), equipment: z.array(piece) })
  .meta({ id: "EquipmentList" });
export type EquipmentAnswer = z.infer<typeof equipmentAnswerSchema>;
