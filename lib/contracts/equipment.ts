import { z } from "zod";

const mm = (what: string) => z.number().min(100, `${what} must be 100 to 5000 mm`).max(5000, `${what} must be 100 to 5000 mm`);
const insideMm = z.tuple([mm("the inside width"), mm("the inside depth"), mm("the inside height")]);

export const kilnLimitsSchema = z.strictObject({
  insideMm,
  wallClearanceMm: z.number().min(0).max(300),
  headroomMm: z.number().min(0).max(500),
  shelfLoadKg: z.number().min(1).max(5000),
  powerKw: z.number().min(0.5).max(200),
  lossWPerK: z.number().min(0.2).max(100),
  heatCapacityKJPerK: z.number().min(1).max(5000),
  maxC: z.number().min(400).max(1400),
  controllerSegments: z.number().int().min(4).max(200),
  minRateKPerH: z.number().min(0.01).max(100),
  turnaroundHours: z.number().min(0).max(72),
});

export const steamerLimitsSchema = z.strictObject({
  insideMm,
  maxMouldKg: z.number().min(1).max(2000),
  powerKw: z.number().min(0.5).max(50),
});

export const trolleyLimitsSchema = z.strictObject({
  ratedKg: z.number().min(10).max(5000),
  ownKg: z.number().min(1).max(1000),
});

const name = z.string().trim().min(1, "a name is needed").max(60);

/** One piece of equipment as the manager describes it: kind, name and that kind's limits. */
export const equipmentSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("kiln"), name, limits: kilnLimitsSchema }),
  z.strictObject({ kind: z.literal("steamer"), name, limits: steamerLimitsSchema }),
  z.strictObject({ kind: z.literal("trolley"), name, limits: trolleyLimitsSchema }),
]);
export type EquipmentInput = z.infer<typeof equipmentSchema>;
