import { z } from "zod";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import { ok, refusalOf, refuse } from "@/lib/domain/refusal";
import { castingFields, kilnForPlanSchema } from "./casting-input";
import { problemsOf } from "./problems";

const marginSchema = z.strictObject({ factor: z.number(), firings: z.int().min(0), sufficed: z.int().min(0) });

const plannedSchema: z.ZodType<CastingInput> = castingFields.extend({
  kiln: kilnForPlanSchema.extend({ margin: marginSchema.exactOptional() }).exactOptional(),
});

/** Reads what a stored plan was made from: a casting with its kiln and, if that was learned, the kiln's own margin. */
export function readPlannedInput(input: unknown): Outcome<CastingInput> {
  const parsed = plannedSchema.safeParse(input);
  if (parsed.success) return ok(parsed.data);
  return refusalOf(problemsOf(parsed.error, input)) ?? refuse({ code: "not-allowed", message: "What the plan was made from cannot be read." });
}
