import { coldWorkPlan, type ColdWorkPlan } from "@/lib/domain/coldworking/cold-work";
import type { Worked } from "@/lib/domain/coldworking/faces";
import type { CastSurface } from "@/lib/domain/coldworking/sequence";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { meshNotRead, solidOfCasting } from "@/lib/domain/firing/load-masses";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

/** The cold work on a checked casting; `mesh` is the body of a mesh piece, as for the plan. */
export function coldWorkOf(input: CastingInput, surface?: CastSurface, worked?: Worked, mesh?: MeshBody): Outcome<ColdWorkPlan> {
  return meshNotRead(input, mesh) ?? ok(coldWorkPlan(solidOfCasting(input, mesh), surface, worked));
}
