import { mayShare } from "@/lib/domain/sharing/may-share";
import { can } from "@/lib/domain/access/roles";
import { toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { kilnToPlanOf } from "@/lib/server/joining/joined-run";
import { overBecause, findJoining } from "@/lib/server/joining/joining-state";
import { newSharer, plannedSharers } from "@/lib/server/joining/load-sharers";
import { momentOf, rowsOf, type SharedView } from "@/lib/server/joining/shared-view";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { isShared, peopleIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { readFiring, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { loadTariff } from "@/lib/server/rows/tariff";

/** One of this person's castings without a run, and whether it could join as far as that is seen at once. */
export type RoomLine = { readonly castingId: string; readonly title: string; readonly whyNot: string | null };

export type OpenJoining = { readonly joiningId: string; readonly castingTitle: string; readonly by: string; readonly expiresAt: string; readonly waitsForYou: boolean; readonly yours: boolean };

export type FiringSharing = {
  /** Null where the firing is one casting's own. */
  readonly view: SharedView | null;
  /** Castings in it that were changed after the joined plan was made. */
  readonly changedSince: readonly string[];
  readonly joining: OpenJoining | null;
  /** Null where nothing can join: it is not planned, its time has come, or a proposal waits. */
  readonly room: readonly RoomLine[] | null;
};

/** Who shares a firing, what is proposed for it, and which of this person's castings could join. */
export const firingSharing = query({
  name: "firing-sharing",
  needs: "see-workshop",
  run: async (reading: Reading, firingId: string): Promise<FiringSharing> => {
    const firing = await readFiring(reading.tx, firingId);
    if (firing === null) return { view: null, changedSince: [], joining: null, room: null };
    const joining = await openJoining(reading, firing);
    const { castings, createdAt } = firing.plan;
    return {
      view: await viewOf(reading, firing),
      changedSince: firing.status === "planned" ? castings.filter(({ casting }) => casting.updatedAt > createdAt).map(({ casting }) => casting.title) : [],
      joining,
      room: joining === null ? await roomIn(reading, firing) : null,
    };
  },
});

async function viewOf({ tx, who }: Reading, firing: LockedFiring): Promise<SharedView | null> {
  const booked = kilnOf(firing);
  if (!isShared(firing) || booked === undefined) return null;
  const kiln = await kilnToPlanOf(tx, firing);
  if (!kiln.ok) return null;
  const sharers = await plannedSharers(tx, firing.plan, firing.castings.map((one) => one.casting), kiln.value);
  if (!sharers.ok) return null;
  const plan = storedPlan(firing.plan.outputs);
  const after = momentOf({ plan, sharers: sharers.value, kiln: kiln.value, tariff: await loadTariff(tx), timeZone: who.timeZone, kilnFrom: toInstant(booked.startsAt), kilnTo: toInstant(booked.endsAt) });
  return { kilnName: kiln.value.name, shelf: kiln.value.limits, rows: rowsOf(plan, sharers.value, after.cost, who.memberId), after, before: null, warnings: plan.warnings };
}

async function openJoining({ tx, who, now }: Reading, firing: LockedFiring): Promise<OpenJoining | null> {
  const open = await tx.joining.findFirst({ where: { firingId: firing.firingId, status: "open" }, select: { joiningId: true } });
  const row = open === null ? null : await findJoining(tx, open.joiningId);
  if (row === null || overBecause(row, now) !== undefined) return null;
  const asked = peopleIn(firing).includes(who.memberId) && row.memberId !== who.memberId;
  return {
    joiningId: row.joiningId, castingTitle: row.casting.title, by: row.member.name, expiresAt: row.expiresAt.toISOString(),
    waitsForYou: asked && !row.answers.some(({ memberId }) => memberId === who.memberId), yours: row.memberId === who.memberId,
  };
}

async function roomIn({ tx, who, now }: Reading, firing: LockedFiring): Promise<readonly RoomLine[] | null> {
  const booked = kilnOf(firing);
  if (firing.status !== "planned" || booked === undefined || booked.startsAt.getTime() <= now.epochMilliseconds || !can(who.roles, "book-runs")) return null;
  const free = await tx.casting.findMany({
    where: { memberId: who.memberId, withdrawnAt: null, firings: { none: { standing: true } } },
    include: { member: { select: { name: true } } }, orderBy: { createdAt: "desc" },
  });
  const kiln = await kilnToPlanOf(tx, firing);
  if (!kiln.ok || free.length === 0) return [];
  const inside = await plannedSharers(tx, firing.plan, firing.castings.map((one) => one.casting), kiln.value);
  if (!inside.ok) return [];
  const lines: RoomLine[] = [];
  for (const casting of free) {
    const own = await newSharer(tx, casting, kiln.value);
    const may = own.ok ? mayShare([...inside.value, own.value], kiln.value.limits) : own;
    lines.push({ castingId: casting.castingId, title: casting.title, whyNot: may.ok ? null : may.problems[0].message });
  }
  return lines;
}
