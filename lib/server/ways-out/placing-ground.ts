import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { Reading } from "@/lib/server/query";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { loadGround, type Ground } from "@/lib/server/runs/ground";

/** What all runs of a settlement are placed on, each with what its owner may use. */
export type PlacingGround = { readonly kiln: (kilnId: string) => KilnToPlan | undefined; readonly of: (ownerId: string) => Promise<Ground> };

/** Reads it once; each owner's once. */
export async function placingGround({ tx, who, now }: Reading): Promise<PlacingGround> {
  const all = await loadGround(tx, who, { from: now });
  const kilns = new Map((await kilnsToPlan(tx, all.equipment, all.recordVersions)).map((kiln) => [kiln.equipmentId, kiln]));
  const owners = new Map<string, Ground>();
  return {
    kiln: (kilnId) => kilns.get(kilnId),
    of: async (ownerId) => {
      const known = owners.get(ownerId) ?? (await loadGround(tx, who, { from: now, ownerId }));
      owners.set(ownerId, known);
      return known;
    },
  };
}
