import { randomUUID } from "node:crypto";
import type { Problem } from "@/lib/domain/refusal";
import { toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { findCastingToJoin, joinedRun } from "@/lib/server/joining/joined-run";
import { plannedSharers } from "@/lib/server/joining/load-sharers";
import { momentOf, rowsOf, type SharedView } from "@/lib/server/joining/shared-view";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { sharedTitle, titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { readFiring } from "@/lib/server/rows/lock-firing";
import { loadTariff } from "@/lib/server/rows/tariff";

export type SharePreview = {
  readonly firingId: string;
  readonly version: number;
  readonly title: string;
  readonly castingId: string;
  /** What the firing would be called with it. */
  readonly together: string;
  /** Names of those who would be asked; none where nobody else is in it. */
  readonly asks: readonly string[];
  readonly requestKey: string;
  readonly problems: readonly Problem[];
  readonly view: SharedView | null;
};

/** What a firing would be with a casting of this person's in it; null when either is none of theirs. */
export const sharePreview = query({
  name: "share-preview",
  needs: "book-runs",
  run: async (reading: Reading, { firingId, castingId }: { readonly firingId: string; readonly castingId: string }): Promise<SharePreview | null> => {
    const { tx, who } = reading;
    const firing = await readFiring(tx, firingId);
    const casting = await findCastingToJoin(tx, castingId);
    if (firing === null || casting === null || casting.memberId !== who.memberId) return null;
    const others = othersIn(firing, who.memberId);
    const people = await tx.member.findMany({ where: { memberId: { in: [...others] } }, select: { name: true }, orderBy: { name: "asc" } });
    const joined = await joinedRun(reading, firing, casting);
    return {
      firingId, castingId,
      version: firing.version,
      title: titleOf(firing.plan),
      together: sharedTitle(casting.title, firing.castings.filter((one) => one.castingId !== castingId).map((one) => one.casting.title)),
      asks: people.map(({ name }) => name),
      requestKey: randomUUID(),
      problems: joined.ok ? [] : joined.problems,
      view: joined.ok ? await viewOf(reading, firing, joined.value) : null,
    };
  },
});

type Joined = Extract<Awaited<ReturnType<typeof joinedRun>>, { ok: true }>["value"];
type Firing = NonNullable<Awaited<ReturnType<typeof readFiring>>>;

async function viewOf({ tx, who }: Reading, firing: Firing, { plan, sharers, kiln, run, cost }: Joined): Promise<SharedView> {
  const tariff = await loadTariff(tx);
  const booked = kilnOf(firing);
  const inside = await plannedSharers(tx, firing.plan, firing.castings.map((one) => one.casting), kiln);
  const common = { kiln, tariff, timeZone: who.timeZone };
  return {
    kilnName: kiln.name,
    shelf: kiln.limits,
    rows: rowsOf(plan, sharers, cost, who.memberId),
    after: momentOf({ ...common, plan, sharers, kilnFrom: run.kilnFrom, kilnTo: run.kilnTo }),
    before: booked === undefined || !inside.ok ? null : momentOf({ ...common, plan: storedPlan(firing.plan.outputs), sharers: inside.value, kilnFrom: toInstant(booked.startsAt), kilnTo: toInstant(booked.endsAt) }),
    warnings: plan.warnings,
  };
}
