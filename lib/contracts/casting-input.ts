import { z } from "zod";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import { ok, refusalOf, refuse } from "@/lib/domain/refusal";
import { problemsOf } from "./problems";

/**
 * The shape of one casting as JSON: which keys there are and of what type. Unknown keys are refused by
 * name. Whether the numbers make sense together (a wall of 0 mm, a piece larger than the kiln) is
 * decided by `lib/domain/firing/validate-input.ts`, which every caller of the calculation goes through.
 */
export const glassIdSchema = z.enum([
  "soda-lime-casting",
  "soda-lime-float",
  "lead-crystal-24",
  "lead-crystal-30",
  "lead-crystal-45",
  "borosilicate-33",
]);

const terms = z.array(z.tuple([z.number(), z.number()]));

const relaxationSchema = z.strictObject({
  referenceC: z.number().exactOptional(),
  activationK: z.number().exactOptional(),
  nonlinearity: z.number().exactOptional(),
  structure: terms.exactOptional(),
  shear: terms.exactOptional(),
  bulk: terms.exactOptional(),
  bulkResidual: z.number().exactOptional(),
});

export const ownGlassSchema = z.strictObject({
  name: z.string().trim().min(1).max(120),
  densityKgM3: z.number().exactOptional(),
  viscosity: z.strictObject({ A: z.number(), B: z.number(), T0C: z.number() }).exactOptional(),
  strainPointC: z.number().exactOptional(),
  annealingPointC: z.number().exactOptional(),
  softeningPointC: z.number().exactOptional(),
  expansionSolidPerK: z.number().exactOptional(),
  expansionLiquidPerK: z.number().exactOptional(),
  youngGPa: z.number().exactOptional(),
  poisson: z.number().exactOptional(),
  conductivityWPerMK: z.tuple([z.number(), z.number()]).exactOptional(),
  heatCapacity: z.union([z.literal("soda-lime"), z.number()]).exactOptional(),
  relaxation: relaxationSchema.exactOptional(),
});

const millimetres3 = z.tuple([z.number(), z.number(), z.number()]);

export const pieceSchema = z.strictObject({
  shape: z.enum(["slab", "brick", "cylinder", "ball", "mesh"]),
  sizeMm: z.array(z.number()).min(1).max(3).exactOptional(),
  file: z.string().min(1).exactOptional(),
  meshId: z.uuid().exactOptional(),
  waxKg: z.number().exactOptional(),
  waxDensityKgM3: z.number().exactOptional(),
  thickestMm: z.number().exactOptional(),
});

export const mouldSchema = z.strictObject({
  wallMm: z.number(),
  plasterSilicaWater: z.tuple([z.number(), z.number(), z.number()]),
  driedBeforeLoading: z.boolean().exactOptional(),
});

export const feederSchema = z.strictObject({
  diameterMm: z.number(),
  lengthMm: z.number(),
  waxKg: z.number().exactOptional(),
});

export const kilnForPlanSchema = z.strictObject({
  insideMm: millimetres3,
  powerKw: z.number(),
  lossWPerK: z.number(),
  heatCapacityKJPerK: z.number(),
  maxC: z.number(),
  controllerSegments: z.number().exactOptional(),
  minRateKPerH: z.number().exactOptional(),
});

export const stressLevelSchema = z.union([
  z.literal("careful"),
  z.strictObject({ permanentMPa: z.number(), passingMPa: z.number() }),
]);

export const castingFields = z.strictObject({
  glass: z.union([glassIdSchema, ownGlassSchema]),
  piece: pieceSchema,
  cooling: z.enum(["all-round", "one-face"]),
  mould: mouldSchema.exactOptional(),
  feeder: feederSchema.exactOptional(),
  kiln: kilnForPlanSchema.exactOptional(),
  stress: stressLevelSchema,
  processC: z.number().exactOptional(),
});

/** Accepts keys that are present but undefined, as forms produce them, as if they were left out. */
export const castingInputSchema: z.ZodType<CastingInput> = z.preprocess(withoutUndefined, castingFields);

/**
 * Reads a casting from anything: parsed JSON, a stored row, a form's object. All faults are told at
 * once.
 *
 * @example readCastingInput({ glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [25] }, cooling: "all-round", stress: "careful" })
 */
export function readCastingInput(input: unknown): Outcome<CastingInput> {
  const parsed = castingInputSchema.safeParse(input);
  if (parsed.success) return ok(parsed.data);
  return refusalOf(problemsOf(parsed.error, input)) ?? refuse({ code: "not-allowed", message: "The casting cannot be read." });
}

function withoutUndefined(value: unknown): unknown {
  if (Array.isArray(value) || typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([key, inner]) => [key, withoutUndefined(inner)]),
  );
}
