import { z } from "zod";
import { KILN_MEASURES, STEAMER_MEASURES, TROLLEY_MEASURES, type Measure } from "@/lib/contracts/equipment-fields";

/** A number that names itself, what was given and what would be allowed when it is refused. */
function measure({ label, unit, min, max, whole = false }: Measure) {
  const say = ({ input }: { readonly input?: unknown }) => {
    const given = input === undefined ? "is missing" : `is ${typeof input === "number" ? input : JSON.stringify(input)}`;
    return `${label} ${given}; it must be ${whole ? "a whole number, " : ""}${min} to ${max}${unit === "" ? "" : ` ${unit}`}.`;
  };
  const number = z.number({ error: say }).min(min, { error: say }).max(max, { error: say });
  return whole ? number.int({ error: say }) : number;
}

const inside = ({ width, depth, height }: Readonly<Record<"width" | "depth" | "height", Measure>>) =>
  z.tuple([measure(width), measure(depth), measure(height)]);

export const kilnLimitsSchema = z.strictObject({
  insideMm: inside(KILN_MEASURES),
  wallClearanceMm: measure(KILN_MEASURES.wallClearanceMm),
  headroomMm: measure(KILN_MEASURES.headroomMm),
  shelfLoadKg: measure(KILN_MEASURES.shelfLoadKg),
  powerKw: measure(KILN_MEASURES.powerKw),
  lossWPerK: measure(KILN_MEASURES.lossWPerK),
  heatCapacityKJPerK: measure(KILN_MEASURES.heatCapacityKJPerK),
  maxC: measure(KILN_MEASURES.maxC),
  controllerSegments: measure(KILN_MEASURES.controllerSegments),
  minRateKPerH: measure(KILN_MEASURES.minRateKPerH),
  turnaroundHours: measure(KILN_MEASURES.turnaroundHours),
});

export const steamerLimitsSchema = z.strictObject({
  insideMm: inside(STEAMER_MEASURES),
  maxMouldKg: measure(STEAMER_MEASURES.maxMouldKg),
  powerKw: measure(STEAMER_MEASURES.powerKw),
});

export const trolleyLimitsSchema = z.strictObject({
  ratedKg: measure(TROLLEY_MEASURES.ratedKg),
  ownKg: measure(TROLLEY_MEASURES.ownKg),
});

const name = z.string().trim().min(1, "Give it a name, as people call it.").max(60, "A name has at most 60 characters.");

/** The last day on which it may be used before it is inspected again; null when nothing falls due. */
const inspectionDue = z.iso.date("The next inspection must be a day, or left empty.").nullable().optional();

const kiln = z.strictObject({ kind: z.literal("kiln"), name, limits: kilnLimitsSchema, inspectionDue, needsInduction: z.boolean().optional() });
const steamer = z.strictObject({ kind: z.literal("steamer"), name, limits: steamerLimitsSchema, inspectionDue });
const trolley = z.strictObject({ kind: z.literal("trolley"), name, limits: trolleyLimitsSchema, inspectionDue });

/** One piece of equipment as the manager describes it: kind, name, that kind's limits and what it waits for. */
export const equipmentSchema = z.discriminatedUnion("kind", [kiln, steamer, trolley]);
export type EquipmentInput = z.infer<typeof equipmentSchema>;

const equipmentId = z.uuid();

/** The same for a piece that is there; its kind must stay. */
export const changeEquipmentSchema = z.discriminatedUnion("kind", [
  kiln.extend({ equipmentId }),
  steamer.extend({ equipmentId }),
  trolley.extend({ equipmentId }),
]);

const reason = z.string().trim().max(500, "A reason has at most 500 characters.");

export const retireEquipmentSchema = z.strictObject({ equipmentId, reason: reason.min(1, "Say why it is retired.") });
export const restoreEquipmentSchema = z.strictObject({ equipmentId, reason: reason.optional() });

export const beginOutageSchema = z.strictObject({
  equipmentId,
  /** Wall-clock times of the workshop, "2027-03-14T09:30"; an empty `from` is now, an empty `to` until further notice. */
  from: z.string().max(30).default(""),
  to: z.string().max(30).default(""),
  reason: reason.min(1, "Say what is wrong with it; everybody who planned with it reads this."),
});

export const endOutageSchema = z.strictObject({ outageId: z.uuid() });
