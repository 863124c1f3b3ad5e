import { can } from "@/lib/domain/access/roles";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { planFiring } from "@/lib/domain/firing/plan";
import { ok } from "@/lib/domain/refusal";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import type { WhyScreen } from "@/lib/contracts/why";
import { query } from "@/lib/server/query";
import { castingOf } from "@/lib/server/rows/casting";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { meshOf } from "@/lib/server/rows/mesh";

export type CastingWhy = WhyScreen & { readonly kilns: readonly { readonly id: string; readonly name: string }[] };
/** When the kiln is booked from, ISO. */
export type FiringWhy = WhyScreen & {
  readonly startsAt: string;
  /** All castings of a shared firing, of which one is looked at; empty when it is one casting's own. */
  readonly castings: readonly { readonly id: string; readonly title: string }[];
};

/** A casting as it is saved, planned for one of the workshop's kilns; null when there is none or it is not this person's. */
export const castingWhy = query({
  name: "casting-why",
  needs: "write-castings",
  run: async ({ who, tx }, { castingId, kilnId }: { readonly castingId: string; readonly kilnId: string | null }): Promise<CastingWhy | null> => {
    const row = await tx.casting.findFirst({ where: { castingId, withdrawnAt: null }, include: { member: { select: { name: true } } } });
    if (row === null || (row.memberId !== who.memberId && !can(who.roles, "manage-runs"))) return null;
    const casting = castingOf(row);
    const kilns = await kilnsToPlan(tx, await loadEquipment(tx));
    const kiln = kilns.find(({ equipmentId }) => equipmentId === kilnId);
    const input = kiln === undefined ? casting.input : inputForKiln(casting.input, kiln);
    const mesh = await meshOf(tx, input);
    return {
      castingId, title: casting.title, owner: row.member.name, mayChange: true,
      kiln: kiln === undefined ? null : { id: kiln.equipmentId, name: kiln.name },
      input, mesh: mesh ?? null, planned: planFiring(input, mesh),
      kilns: kilns.map(({ equipmentId, name }) => ({ id: equipmentId, name })),
    };
  },
});

const CASTING = { title: true, memberId: true, withdrawnAt: true, member: { select: { name: true } } } as const;

/** A firing's plan as it was stored, as one of its castings lives through it; null when this workshop has no such firing. */
export const firingWhy = query({
  name: "firing-why",
  needs: "see-workshop",
  run: async ({ who, tx }, { firingId, castingId: wanted }: { readonly firingId: string; readonly castingId: string | null }): Promise<FiringWhy | null> => {
    const row = await tx.firing.findFirst({
      where: { firingId },
      include: {
        plan: { include: { casting: { select: CASTING }, castings: { include: { casting: { select: CASTING } } } } },
        bookings: { where: { purpose: "kiln" }, orderBy: [{ standing: "desc" }, { createdAt: "desc" }], take: 1, include: { equipment: { select: { name: true } } } },
      },
    });
    const kiln = row?.bookings[0];
    if (row === null || kiln === undefined) return null;
    const { castingId, casting, inputs } = row.plan.castings.find((one) => one.castingId === wanted) ?? row.plan;
    const made = readPlannedInput(inputs);
    if (!made.ok) throw new Error(`plan of firing ${firingId}: ${made.problems[0].message}`);
    return {
      castingId, title: casting.title, owner: casting.member.name,
      castings: row.plan.castings.map((one) => ({ id: one.castingId, title: one.casting.title })),
      mayChange: casting.withdrawnAt === null && can(who.roles, "write-castings") && (casting.memberId === who.memberId || can(who.roles, "manage-runs")),
      kiln: { id: kiln.equipmentId, name: kiln.equipment.name },
      input: made.value, mesh: (await meshOf(tx, made.value)) ?? null, planned: ok(storedPlan(row.plan.outputs)),
      startsAt: kiln.startsAt.toISOString(),
    };
  },
});
