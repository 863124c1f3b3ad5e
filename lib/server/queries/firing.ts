import { can } from "@/lib/domain/access/roles";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { planFiring } from "@/lib/domain/firing/plan";
import { isOver } from "@/lib/domain/booking/hold";
import { firingPower } from "@/lib/domain/firing/power";
import { costFrom, type FiringCost } from "@/lib/domain/tariff/firing-cost";
import { mayStart } from "@/lib/domain/safety/check-sheet";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { castingOf } from "@/lib/server/rows/casting";
import { storedMargin, storedPlan } from "@/lib/server/rows/casting-plan";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { bodyOf } from "@/lib/server/rows/mesh";
import { equipmentOf } from "@/lib/server/rows/equipment";
import { loadTariff } from "@/lib/server/rows/tariff";
import { SHARED_TITLES, titleOf } from "@/lib/server/rows/firing-title";
import { isIn, isShared } from "@/lib/server/rows/in-firing";

export type FiringPart = { readonly purpose: string; readonly casting: string | null; readonly equipmentName: string; readonly from: string; readonly to: string };
export type FiringLift = {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly kg: number;
  readonly hands: number;
  readonly trolleyName: string | null;
  readonly flag: string;
};

export type FiringScreen = {
  readonly firingId: string;
  readonly version: number;
  readonly title: string;
  readonly castingId: string;
  readonly owner: string;
  readonly mine: boolean;
  /** Whether this person has a casting in it. */
  readonly inIt: boolean;
  readonly shared: boolean;
  readonly status: string;
  readonly endedReason: string | null;
  /** Until when it is, or was, held; null when it was never held. */
  readonly heldUntil: string | null;
  readonly nowMs: number;
  /** Held as an offer to an ask. */
  readonly offered: boolean;
  readonly kiln: { readonly id: string; readonly name: string; readonly from: string; readonly to: string };
  readonly unloadFrom: string | null;
  readonly expectedEnd: string | null;
  readonly startedAt: string | null;
  readonly openedAt: string | null;
  readonly neededBy: string | null;
  readonly parts: readonly FiringPart[];
  readonly lifts: readonly FiringLift[];
  readonly plan: CastingPlan;
  readonly plannedAt: string;
  /** The casting was changed after this plan was made: what it would be now. */
  readonly planNow: { readonly hours: number; readonly differs: boolean } | null;
  /** By the bands of the booked hours; null while the workshop has no tariff. */
  readonly cost: FiringCost | null;
  readonly mayManagePower: boolean;
  readonly checksOpen: number;
  readonly mayManage: boolean;
  readonly mayRun: boolean;
};

/** One firing with everything that hangs on it; null when this workshop has no such firing. */
export const firingScreen = query({
  name: "firing",
  needs: "see-workshop",
  run: async (reading: Reading, firingId: string): Promise<FiringScreen | null> => {
    const { tx, who } = reading;
    const row = await loadFiring(reading, firingId);
    // A run that ended stands no longer; its last bookings are still what it was.
    const standing = row?.bookings.filter((b) => b.standing) ?? [];
    const rows = standing.length > 0 ? standing : lastOfEach(row?.bookings ?? []);
    const kiln = rows.find((b) => b.purpose === "kiln");
    if (row === null || kiln === undefined) return null;
    const sheet = await loadCheckSheet(tx, firingId);
    const start = sheet === null ? null : mayStart(sheet.items, sheet.answers);
    const mine = row.memberId === who.memberId;
    const inIt = isIn(row, who.memberId);
    const manages = can(who.roles, "manage-runs");
    return {
      firingId,
      version: row.version,
      title: titleOf(row.plan),
      castingId: row.plan.castingId,
      owner: row.member.name,
      mine,
      inIt,
      shared: isShared(row),
      // A hold that is over has lapsed, though its job may still be on its way.
      status: row.status === "held" && isOver(toInstant(row.heldUntil ?? row.createdAt), reading.now) ? "lapsed" : row.status,
      endedReason: row.endedReason,
      heldUntil: row.heldUntil?.toISOString() ?? null,
      nowMs: reading.now.epochMilliseconds,
      offered: row.askId !== null,
      kiln: { id: kiln.equipmentId, name: kiln.equipment.name, from: kiln.startsAt.toISOString(), to: kiln.endsAt.toISOString() },
      unloadFrom: rows.find((b) => b.purpose === "unload")?.startsAt.toISOString() ?? null,
      expectedEnd: row.expectedEnd?.toISOString() ?? null,
      startedAt: row.startedAt?.toISOString() ?? null,
      openedAt: row.openedAt?.toISOString() ?? null,
      neededBy: row.plan.casting.neededBy?.toISOString().slice(0, 10) ?? null,
      parts: rows.map((b) => ({ purpose: b.purpose, casting: isShared(row) ? (b.casting?.title ?? null) : null, equipmentName: b.equipment.name, from: b.startsAt.toISOString(), to: b.endsAt.toISOString() })),
      lifts: row.lifts.map((l) => ({
        what: l.what, from: l.startsAt.toISOString(), to: l.endsAt.toISOString(), kg: l.kg, hands: l.hands, trolleyName: l.trolley?.name ?? null, flag: l.flag,
      })),
      plan: storedPlan(row.plan.outputs),
      plannedAt: row.plan.createdAt.toISOString(),
      planNow: row.status === "planned" && row.plan.castings.length === 0 ? planNow(row, kiln) : null,
      cost: await costOf(reading, row, kiln),
      mayManagePower: can(who.roles, "manage-power"),
      checksOpen: start === null || start.ok ? 0 : start.problems.length,
      mayManage: manages,
      mayRun: inIt || manages || who.roles.includes("assistant"),
    };
  },
});

type Row = NonNullable<Awaited<ReturnType<typeof loadFiring>>>;

function loadFiring({ tx }: Reading, firingId: string) {
  return tx.firing.findFirst({
    where: { firingId },
    include: {
      member: { select: { name: true } },
      plan: { include: { casting: { include: { mesh: { select: { body: true } } } }, ...SHARED_TITLES } },
      castings: { where: { standing: true }, select: { casting: { select: { memberId: true } } } },
      bookings: { orderBy: [{ createdAt: "desc" }, { startsAt: "asc" }], include: { equipment: true, casting: { select: { title: true } } } },
      lifts: { where: { standing: true }, orderBy: { startsAt: "asc" }, include: { trolley: { select: { name: true } } } },
    },
  });
}

function lastOfEach<B extends { readonly purpose: string; readonly castingId: string | null; readonly startsAt: Date }>(newestFirst: readonly B[]): readonly B[] {
  const last = newestFirst.filter((b, i) => newestFirst.findIndex((other) => other.purpose === b.purpose && other.castingId === b.castingId) === i);
  return last.toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
}

/** The stored plan at its booked start, in the kiln it was made for. */
async function costOf({ tx, who }: Reading, row: Row, kiln: Row["bookings"][number]): Promise<FiringCost | null> {
  const tariff = await loadTariff(tx);
  if (tariff === null) return null;
  const made = readPlannedInput(row.plan.inputs);
  if (!made.ok) throw new Error(`plan of firing ${row.firingId}: ${made.problems[0].message}`);
  const curve = firingPower(storedPlan(row.plan.outputs), made.value.kiln);
  return costFrom(curve, tariff, toInstant(kiln.startsAt), who.timeZone);
}

function planNow(row: Row, kiln: Row["bookings"][number]): FiringScreen["planNow"] {
  if (!(row.plan.casting.updatedAt > row.plan.createdAt)) return null;
  const equipment = equipmentOf(kiln.equipment);
  if (equipment.kind !== "kiln") return null;
  const { casting } = row.plan;
  const again = planFiring(inputForKiln(castingOf(casting).input, { ...equipment, margin: storedMargin(row.plan.outputs) }), bodyOf(casting.mesh));
  if (!again.ok) return null;
  const hours = again.value.reservation.hours;
  return { hours, differs: hours !== storedPlan(row.plan.outputs).reservation.hours };
}
