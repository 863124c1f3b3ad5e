import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planDocument, type PlanDocument } from "@/lib/domain/firing/plan-document";
import type { Outcome } from "@/lib/domain/refusal";
import { meshToPlan } from "@/lib/server/queries/mesh-to-plan";
import type { Who } from "@/lib/server/who";

/** The plan of a casting that is described on the spot; nothing is kept. The calculation holds no connection to the database. */
export async function planCasting(who: Who, input: CastingInput): Promise<Outcome<PlanDocument>> {
  const mesh = await meshToPlan(who, input);
  return mesh.ok ? planDocument(input, mesh.value) : mesh;
}
