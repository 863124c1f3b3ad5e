import { can } from "@/lib/domain/access/roles";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { query } from "@/lib/server/query";
import { castingOf } from "@/lib/server/rows/casting";
import { meshOf } from "@/lib/server/rows/mesh";

export type ColdWorkSheet = { readonly castingId: string; readonly title: string; readonly owner: string; readonly input: CastingInput; readonly mesh: MeshBody | undefined };

/** A casting to be ground and polished; null when there is none, it is withdrawn, or it is not this person's. */
export const coldWorkSheet = query({
  name: "cold-work-sheet",
  needs: "write-castings",
  run: async ({ who, tx }, castingId: string): Promise<ColdWorkSheet | null> => {
    const row = await tx.casting.findFirst({ where: { castingId, withdrawnAt: null }, include: { member: { select: { name: true } } } });
    if (row === null || (row.memberId !== who.memberId && !can(who.roles, "manage-runs"))) return null;
    const { title, input } = castingOf(row);
    return { castingId, title, owner: row.member.name, input, mesh: await meshOf(tx, input) };
  },
});
