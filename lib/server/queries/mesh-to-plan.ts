import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { query } from "@/lib/server/query";
import { usableMesh } from "@/lib/server/rows/mesh";

/** The mesh of one's own that a described casting names, if it names one. */
export const meshToPlan = query({
  name: "mesh-to-plan",
  needs: "see-workshop",
  run: (reading, input: CastingInput): Promise<Outcome<MeshBody | undefined>> => usableMesh(reading, input),
});
