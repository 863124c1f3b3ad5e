import { randomUUID } from "node:crypto";
import { can } from "@/lib/domain/access/roles";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Problem } from "@/lib/domain/refusal";
import { query, type Reading } from "@/lib/server/query";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { SHARED_TITLES, titleOf } from "@/lib/server/rows/firing-title";
import { isShared } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { placeAnew } from "@/lib/server/runs/place-anew";

export type PlanAnewScreen = {
  readonly firingId: string;
  readonly version: number;
  readonly title: string;
  readonly owner: string;
  readonly mine: boolean;
  readonly status: string;
  readonly shared: boolean;
  readonly kilnName: string;
  readonly kilnFrom: string;
  readonly kilnTo: string;
  readonly requestKey: string;
  readonly plannedAt: string;
  /** The plan the run was booked with. */
  readonly kept: CastingPlan;
  /** The plan of the casting as it is now, with when the kiln would be free; or why it cannot stand where the run stands. */
  readonly anew: { readonly plan: CastingPlan; readonly kilnTo: string } | { readonly problems: readonly Problem[] };
};

/** A planned run beside what it would be for its casting as it is now; null when it is not this person's to change. */
export const planAnew = query({
  name: "plan-anew",
  needs: "book-runs",
  run: async (reading: Reading, firingId: string): Promise<PlanAnewScreen | null> => {
    const { who } = reading;
    const firing = await loadFiring(reading, firingId);
    const kiln = firing === null ? undefined : kilnOf(firing);
    if (firing === null || kiln === undefined) return null;
    const mine = firing.memberId === who.memberId;
    if (!mine && !can(who.roles, "manage-runs")) return null;
    const shared = isShared(firing);
    return {
      firingId, mine, shared,
      version: firing.version,
      title: titleOf(firing.plan),
      owner: firing.member.name,
      status: firing.status,
      kilnName: kiln.equipment.name,
      kilnFrom: kiln.startsAt.toISOString(),
      kilnTo: kiln.endsAt.toISOString(),
      requestKey: randomUUID(),
      plannedAt: firing.plan.createdAt.toISOString(),
      kept: storedPlan(firing.plan.outputs),
      anew: firing.status === "planned" && !shared ? await anewOf(reading, firing) : { problems: [] },
    };
  },
});

async function anewOf(reading: Reading, firing: NonNullable<Awaited<ReturnType<typeof loadFiring>>>): Promise<PlanAnewScreen["anew"]> {
  const placed = await placeAnew(reading, firing);
  return placed.ok ? { plan: placed.value.plan, kilnTo: placed.value.run.kilnTo.toString() } : { problems: placed.problems };
}

function loadFiring({ tx }: Reading, firingId: string) {
  return tx.firing.findFirst({
    where: { firingId },
    include: {
      member: { select: { name: true } },
      plan: { include: { casting: true, ...SHARED_TITLES } },
      castings: { where: { standing: true }, include: { casting: { select: { memberId: true } } } },
      bookings: { where: { standing: true }, include: { equipment: true } },
    },
  });
}
