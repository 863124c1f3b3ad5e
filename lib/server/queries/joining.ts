import { toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { findJoining, overBecause, type JoiningRow } from "@/lib/server/joining/joining-state";
import { plannedSharers, type OwnedSharer } from "@/lib/server/joining/load-sharers";
import { momentOf, rowsOf, type SharedView } from "@/lib/server/joining/shared-view";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, peopleIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { readFiring, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { loadTariff } from "@/lib/server/rows/tariff";

export type JoiningPerson = { readonly name: string; readonly you: boolean; readonly says: "proposes" | "asked" | "accepts" | "declines"; readonly at: string | null };

export type JoiningScreen = {
  readonly joiningId: string;
  readonly firingId: string;
  readonly title: string;
  readonly castingTitle: string;
  readonly by: string;
  readonly status: string;
  /** Why it does not stand any more; null while it waits for answers. */
  readonly over: string | null;
  readonly expiresAt: string;
  readonly people: readonly JoiningPerson[];
  readonly waitsForYou: boolean;
  readonly yours: boolean;
  /** Null where the kiln is no longer in use, so that nothing can be drawn to its scale. */
  readonly view: SharedView | null;
};

/** A proposal as everybody concerned sees it; null when this workshop has none such. */
export const joiningScreen = query({
  name: "joining",
  needs: "see-workshop",
  run: async (reading: Reading, joiningId: string): Promise<JoiningScreen | null> => {
    const { tx, who, now } = reading;
    const joining = await findJoining(tx, joiningId);
    const firing = joining === null ? null : await readFiring(tx, joining.firingId);
    if (joining === null || firing === null) return null;
    const over = overBecause(joining, now) ?? null;
    const people = over === null ? await peopleOf(reading, firing, joining) : answered(joining, who.memberId);
    return {
      joiningId,
      firingId: firing.firingId,
      title: titleOf(firing.plan),
      castingTitle: joining.casting.title,
      by: joining.member.name,
      status: over !== null && joining.status === "open" ? "lapsed" : joining.status,
      over,
      expiresAt: joining.expiresAt.toISOString(),
      people,
      waitsForYou: people.some(({ you, says }) => you && says === "asked"),
      yours: joining.memberId === who.memberId,
      view: await viewOf(reading, firing, joining),
    };
  },
});

function answered({ member, memberId, answers }: JoiningRow, you: string): readonly JoiningPerson[] {
  const others = answers.filter((answer) => answer.memberId !== memberId);
  return [
    { name: member.name, you: memberId === you, says: "proposes", at: null },
    ...others.map((answer): JoiningPerson => ({ name: answer.member.name, you: answer.memberId === you, says: answer.accepts ? "accepts" : "declines", at: answer.at.toISOString() })),
  ];
}

async function peopleOf({ tx, who }: Reading, firing: LockedFiring, joining: JoiningRow): Promise<readonly JoiningPerson[]> {
  const given = answered(joining, who.memberId);
  const silent = peopleIn(firing).filter((one) => one !== joining.memberId && !joining.answers.some(({ memberId }) => memberId === one));
  const names = await tx.member.findMany({ where: { memberId: { in: silent } }, select: { memberId: true, name: true }, orderBy: { name: "asc" } });
  return [...given, ...names.map(({ memberId, name }): JoiningPerson => ({ name, you: memberId === who.memberId && isIn(firing, who.memberId), says: "asked", at: null }))];
}

async function viewOf({ tx, who }: Reading, firing: LockedFiring, joining: JoiningRow): Promise<SharedView | null> {
  const kiln = await kilnToPlanOf(tx, firing);
  if (!kiln.ok) return null;
  const castings = await tx.casting.findMany({ where: { castingId: { in: joining.plan.castings.map(({ castingId }) => castingId) } }, include: { member: { select: { name: true } } } });
  const last = castings.toSorted((a, b) => Number(a.castingId === joining.castingId) - Number(b.castingId === joining.castingId));
  const sharers = await plannedSharers(tx, joining.plan, last, kiln.value);
  const booked = kilnOf(firing);
  if (!sharers.ok) return null;
  const plan = storedPlan(joining.plan.outputs);
  const common = { kiln: kiln.value, tariff: await loadTariff(tx), timeZone: who.timeZone };
  const after = momentOf({ ...common, plan, sharers: sharers.value, kilnFrom: toInstant(joining.kilnFrom), kilnTo: toInstant(joining.kilnTo) });
  const before: readonly OwnedSharer[] = sharers.value.filter(({ castingId }) => castingId !== joining.castingId);
  const compares = booked !== undefined && firing.planId !== joining.planId && joining.status === "open";
  return {
    kilnName: kiln.value.name,
    shelf: kiln.value.limits,
    rows: rowsOf(plan, sharers.value, after.cost, who.memberId),
    after,
    before: compares ? momentOf({ ...common, plan: storedPlan(firing.plan.outputs), sharers: before, kilnFrom: toInstant(booked.startsAt), kilnTo: toInstant(booked.endsAt) }) : null,
    warnings: plan.warnings,
  };
}
