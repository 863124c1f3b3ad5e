import { z } from "zod";
import type { PlanDocument } from "@/lib/domain/firing/plan-document";

/** The plan document as scripts get it; units are in the names, temperatures °C, differences K. */
const stage = z.object({
  stage: z.enum(["Dry", "Climb", "Flow", "Drop", "Soak", "Slow cool", "Run-down", "Open"]),
  toC: z.number(),
  rateKPerH: z.number().describe("Signed; 0 while holding."),
  hours: z.number(),
  why: z.string(),
});

const lift = z.object({
  what: z.enum(["to-steamer", "from-steamer", "load", "unload"]),
  kg: z.number(),
  hands: z.number().int(),
  mouldState: z.enum(["wet", "dry", "fired"]),
  hot: z.boolean(),
  wet: z.boolean(),
  trolley: z.boolean(),
  flag: z.enum(["none", "amber", "red"]).describe("amber: above the cautious filter figure; red: a mechanical aid is needed."),
  why: z.string(),
});

const marginItem = z.object({
  what: z.string(),
  hours: z.number(),
  why: z.string(),
  source: z.enum(["common practice, no source", "from memory", "worked out"]),
});
const margin = z.object({
  hours: z.number(),
  usualHours: z.number(),
  items: z.array(marginItem),
  learnedFrom: z.object({ factor: z.number(), firings: z.number().int(), sufficed: z.number().int() }).exactOptional(),
});

const amounts = z.object({
  volumeL: z.number(), plasterKg: z.number(), silicaKg: z.number(), powderKg: z.number(), waterKg: z.number(), wetKg: z.number(),
});
const layer = z.object({
  kind: z.enum(["face coat", "back-up coat", "jacket"]),
  number: z.number().int(),
  of: z.number().int(),
  fromMm: z.number(),
  toMm: z.number(),
  meshBefore: z.boolean(),
  amounts,
  freeWaterKg: z.number(),
  boundWaterKg: z.number(),
  buckets: z.number().int(),
  eachBucket: amounts,
});
const batches = z.object({ layers: z.array(layer), buckets: z.number().int(), volumeL: z.number() });

const hourRange = z.object({ from: z.number(), about: z.number(), to: z.number() });
const coldStep = z.object({ name: z.string(), medianUm: z.number().nullable(), removeUm: z.number(), hours: hourRange });
const coldWork = z.object({ work: z.enum(["flat", "round"]), scale: z.enum(["F", "P"]), areaM2: z.number(), steps: z.array(coldStep), hours: hourRange });

export const planAnswerSchema: z.ZodType<PlanDocument> = z
  .object({
    calculation: z.string().describe("Version of the calculation."),
    glass: z.object({ name: z.string(), pieceKg: z.number(), feederKg: z.number(), headKg: z.number(), residueKg: z.number(), chargeKg: z.number() }),
    pot: z.object({ litres: z.number(), heightMm: z.number(), diameterMm: z.number(), kg: z.number() }),
    mould: z.object({
      wetKg: z.number(), dryKg: z.number(), firedKg: z.number(), powderKg: z.number(), plasterKg: z.number(), silicaKg: z.number(), waterKg: z.number(),
      freeWaterKg: z.number(), boundWaterKg: z.number(),
      outsideMm: z.tuple([z.number(), z.number(), z.number()]),
      batches: batches.nullable(),
    }),
    waxKg: z.number(),
    loadMm: z.object({ width: z.number(), depth: z.number(), height: z.number() }),
    shelfKg: z.number(),
    steamOut: z.object({ hours: z.number(), condensateKg: z.number() }),
    drying: z.object({ airDaysFrom: z.number(), airDaysTo: z.number() }),
    shape: z.object({ slabEquivalentMm: z.number(), volumeL: z.number() }),
    firing: z.object({ stages: z.array(stage), hours: z.number(), annealingHours: z.number(), peakC: z.number() }),
    stress: z.object({ permanentCentreMPa: z.number(), permanentSurfaceMPa: z.number(), passingMPa: z.number(), coreSurfaceK: z.number(), centreNmPerCm: z.number() }),
    reservation: z.object({ hours: z.number(), kilnWeeks: z.number(), marginHours: z.number(), marginWhy: z.string(), margin: margin.exactOptional() }),
    energy: z.object({ kWh: z.number() }),
    lifts: z.array(lift),
    warnings: z.array(z.string()),
    coldWorking: z.object({ works: z.array(coldWork), hours: hourRange, offMm: z.number() }),
  })
  .meta({ id: "FiringPlan", description: "A firing plan and all that follows from it." });
