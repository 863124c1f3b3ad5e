import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { firstSharedRun, sharedRunAt } from "@/lib/domain/booking/shared-run";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { loadRunQuestion, whoseTime } from "@/lib/server/runs/run-question";

type Firing = Pick<LockedFiring, "firingId" | "memberId" | "bookings" | "plan">;

/** When each casting's booked steam-out ends, by casting; `from` leaves out those that start later. */
export function steamOutEnds({ bookings, plan }: Firing, startedBy?: Temporal.Instant): ReadonlyMap<string, Temporal.Instant> {
  const steam = bookings.filter(({ purpose, startsAt }) => purpose === "steam-out" && (startedBy === undefined || startsAt.getTime() <= startedBy.epochMilliseconds));
  return new Map(steam.map(({ castingId, endsAt }) => [castingId ?? plan.castingId, toInstant(endsAt)]));
}

/** Places a shared run on what the calendar holds now: for a change, call it behind lockCalendar. */
export async function placeShared({ tx, who, now }: Pick<Ctx, "tx" | "who" | "now">, firing: Firing, wanted: { readonly plan: CastingPlan; readonly kiln: Kiln; readonly kilnFrom: Temporal.Instant; readonly kept: ReadonlyMap<string, Temporal.Instant>; readonly orLater?: boolean }): Promise<Outcome<RunProposal>> {
  const { plan, kiln, kilnFrom, kept, orLater = false } = wanted;
  if (Temporal.Instant.compare(kilnFrom, now) <= 0) {
    return refuse({ code: "in-the-past", field: "kilnFrom", value: kilnFrom.toString(), message: `The kiln cannot start at ${showTime(kilnFrom, who.timeZone)}: that is past.` });
  }
  const equipment = await loadEquipment(tx);
  const question = await loadRunQuestion(tx, who, {
    plan, planByKiln: new Map([[kiln.equipmentId, plan]]), equipment, driedBeforeLoading: false,
    named: whoseTime(equipment, kiln, kilnFrom, plan),
    notBefore: now, neededBy: null, perKiln: 1, ownerId: firing.memberId, withoutFiring: firing.firingId,
  });
  const place = orLater ? firstSharedRun : sharedRunAt;
  return place(withKeptSteam(question, firing, kept), plan, kiln.equipmentId, kilnFrom, kept);
}

/** Steam-outs of this very firing that stay are in the way of others like anybody's. */
function withKeptSteam<Q extends { readonly busy: readonly unknown[] }>(question: Q, { bookings, plan }: Firing, kept: ReadonlyMap<string, Temporal.Instant>): Q {
  const stays = bookings.filter(({ purpose, castingId }) => purpose === "steam-out" && kept.has(castingId ?? plan.castingId));
  return { ...question, busy: [...question.busy, ...stays.map(({ equipmentId, startsAt, endsAt }) => ({ equipmentId, start: toInstant(startsAt), end: toInstant(endsAt), holder: "this firing" }))] };
}
