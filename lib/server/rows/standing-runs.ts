import type { Temporal } from "temporal-polyfill";
import type { Equipment } from "@/lib/domain/booking/equipment";
import type { StandingBooking, StandingLift, StandingRun } from "@/lib/domain/booking/clash";
import { planFiring } from "@/lib/domain/firing/plan";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { castingOf } from "@/lib/server/rows/casting";
import { bodyOf } from "@/lib/server/rows/mesh";
import { storedMargin, storedPlan } from "@/lib/server/rows/casting-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { SHARED_TITLES, titleOf } from "@/lib/server/rows/firing-title";
import { kilnOf } from "@/lib/server/rows/kiln-of";

type FiringRow = Awaited<ReturnType<typeof firingRows>>[number];

function firingRows(tx: Tx, since: Temporal.Instant) {
  return tx.firing.findMany({
    where: {
      OR: [
        { status: "started" },
        { status: { in: ["planned", "held"] }, ...notLapsed(since), bookings: { some: { standing: true, endsAt: { gt: toDate(since) } } } },
      ],
    },
    include: {
      member: { select: { name: true } },
      plan: { include: { casting: { include: { mesh: { select: { body: true } } } }, ...SHARED_TITLES } },
      bookings: { where: { standing: true }, orderBy: { startsAt: "asc" } },
      lifts: { where: { standing: true }, orderBy: { startsAt: "asc" } },
    },
    orderBy: { createdAt: "asc" },
  });
}

/** Every firing that stands on the calendar and is not over, as the clash search wants them. */
export async function loadStandingRuns(tx: Tx, equipment: readonly Equipment[], since: Temporal.Instant): Promise<readonly StandingRun[]> {
  const rows = await firingRows(tx, since);
  return rows.flatMap((row) => {
    const kilnId = kilnOf(row)?.equipmentId;
    return kilnId === undefined ? [] : [standingRun(row, kilnId, equipment)];
  });
}

function standingRun(row: FiringRow, kilnId: string, equipment: readonly Equipment[]): StandingRun {
  return {
    firingId: row.firingId,
    title: titleOf(row.plan),
    ownerMemberId: row.memberId,
    ownerName: row.member.name,
    status: row.status === "started" ? "started" : "planned",
    kilnId,
    bookings: row.bookings.map((b): StandingBooking => ({
      bookingId: b.bookingId,
      equipmentId: b.equipmentId,
      purpose: purposeOf(b.purpose),
      start: toInstant(b.startsAt),
      end: toInstant(b.endsAt),
      hands: Math.max(0, ...row.lifts.filter((l) => l.what === b.purpose).map((l) => l.hands)),
    })),
    lifts: row.lifts.map((l): StandingLift => ({
      what: liftWhat(l.what),
      start: toInstant(l.startsAt),
      end: toInstant(l.endsAt),
      hands: l.hands,
      trolleyId: l.trolleyId,
    })),
    heatingHours: row.heatingHours,
    expectedEnd: row.expectedEnd === null ? null : toInstant(row.expectedEnd),
    plannedHours: plannedHours(row, kilnId, equipment),
  };
}

/** What the firing asks for now: its plan's hours, or those of the casting as it has been changed since. */
function plannedHours(row: FiringRow, kilnId: string, equipment: readonly Equipment[]): number {
  const booked = storedPlan(row.plan.outputs).reservation.hours;
  // A joined plan was accepted as it is; what its castings would ask for now shows on the firing's page.
  if (row.plan.castings.length > 0) return booked;
  const kiln = equipment.find((item) => item.equipmentId === kilnId);
  if (row.status === "started" || !(row.plan.casting.updatedAt > row.plan.createdAt) || kiln?.kind !== "kiln") return booked;
  const { casting } = row.plan;
  const again = planFiring(inputForKiln(castingOf(casting).input, { ...kiln, margin: storedMargin(row.plan.outputs) }), bodyOf(casting.mesh));
  return again.ok ? again.value.reservation.hours : booked;
}

const PURPOSES = ["steam-out", "load", "kiln", "unload"] as const;
const WHATS = ["to-steamer", "from-steamer", "load", "unload"] as const;

export function purposeOf(text: string): (typeof PURPOSES)[number] {
  const known = PURPOSES.find((purpose) => purpose === text);
  if (known === undefined) throw new Error(`unknown purpose ${text}`);
  return known;
}

export function liftWhat(text: string): (typeof WHATS)[number] {
  const known = WHATS.find((what) => what === text);
  if (known === undefined) throw new Error(`unknown lift ${text}`);
  return known;
}
