import { z } from "zod";
import { problemsOf } from "@/lib/contracts/problems";
import { glassIdSchema, ownGlassSchema } from "@/lib/contracts/casting-input";
import { ok, refusalOf, refuse, type Outcome } from "@/lib/domain/refusal";
import type { SimulationRequest } from "@/lib/domain/stress/simulation-request";

const request = z.strictObject({
  glass: z.union([glassIdSchema, ownGlassSchema]),
  body: z.strictObject({ shape: z.enum(["slab", "cylinder", "ball"]), thicknessMm: z.number() }),
  mould: z.strictObject({ wallMm: z.number() }).exactOptional(),
  surface: z.union([z.literal("fixed"), z.strictObject({ hWPerM2K: z.number(), emissivity: z.number().exactOptional() })]),
  startC: z.number(),
  program: z.array(z.tuple([z.number(), z.number()])),
});

/** Reads a run of the simulation from parsed JSON; unknown keys are refused by name, all faults at once. */
export function readSimulationRequest(input: unknown): Outcome<SimulationRequest> {
  const parsed = request.safeParse(input);
  if (parsed.success) return ok(parsed.data);
  return refusalOf(problemsOf(parsed.error, input)) ?? refuse({ code: "not-allowed", message: "The run cannot be read." });
}
