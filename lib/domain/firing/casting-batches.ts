import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { meshNotRead, solidOfCasting } from "@/lib/domain/firing/load-masses";
import { batchesOf, type MouldBatches } from "@/lib/domain/mould/batches";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { metres } from "@/lib/domain/units";

/** The batches of a planned casting's mould; null for bare glass. `mesh` is the body of a mesh piece, as for the plan. */
export function mouldBatches(input: CastingInput, plan: Pick<CastingPlan, "mould" | "glass">, mesh?: MeshBody): Outcome<MouldBatches | null> {
  const { mould, feeder } = input;
  if (mould === undefined) return ok(null);
  const unread = meshNotRead(input, mesh);
  if (unread !== undefined) return unread;
  return batchesOf({
    solid: solidOfCasting(input, mesh),
    wallMm: mould.wallMm,
    feeder: feeder === undefined ? undefined : { diameterM: metres(feeder.diameterMm), lengthM: metres(feeder.lengthMm) },
    mould: plan.mould,
    glassKg: plan.glass.pieceKg,
  });
}
