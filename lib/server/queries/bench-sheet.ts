import { can } from "@/lib/domain/access/roles";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { planFiring } from "@/lib/domain/firing/plan";
import type { MouldBatches } from "@/lib/domain/mould/batches";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { query } from "@/lib/server/query";
import { castingOf } from "@/lib/server/rows/casting";
import { meshOf } from "@/lib/server/rows/mesh";

export type BenchSheet = {
  readonly castingId: string;
  readonly title: string;
  readonly owner: string;
  /** What stands in the way of a sheet, or the mould it is for. */
  readonly mould: Outcome<{ readonly batches: MouldBatches; readonly figures: CastingPlan["mould"]; readonly wallMm: number; readonly parts: readonly number[] }>;
};

/** What to weigh and mix for a casting's mould; null when there is none, it is withdrawn, or it is not this person's. */
export const benchSheet = query({
  name: "bench-sheet",
  needs: "write-castings",
  run: async ({ who, tx }, castingId: string): Promise<BenchSheet | null> => {
    const row = await tx.casting.findFirst({ where: { castingId, withdrawnAt: null }, include: { member: { select: { name: true } } } });
    if (row === null || (row.memberId !== who.memberId && !can(who.roles, "manage-runs"))) return null;
    const { title, input } = castingOf(row);
    return { castingId, title, owner: row.member.name, mould: mouldToMix(input, await meshOf(tx, input)) };
  },
});

function mouldToMix(input: CastingInput, mesh: MeshBody | undefined): BenchSheet["mould"] {
  const plan = planFiring(input, mesh);
  if (!plan.ok) return plan;
  const batches = mouldBatches(input, plan.value, mesh);
  if (!batches.ok) return batches;
  if (batches.value === null || input.mould === undefined) return refuse({ code: "no-mould", message: "This casting is bare glass: it has no mould to mix." });
  const { wallMm, plasterSilicaWater: parts } = input.mould;
  return { ok: true, value: { batches: batches.value, figures: plan.value.mould, wallMm, parts } };
}
