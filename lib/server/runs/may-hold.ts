import { Temporal } from "temporal-polyfill";
import { againFrom, heldUntil, isWorthHolding, LEAST_MINUTES } from "@/lib/domain/booking/hold";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { earlierHolds } from "@/lib/server/rows/earlier-holds";
import type { CastingToBook } from "@/lib/server/runs/open-firing";

/**
 * Until when this run is held, or why it cannot be: a member holds only so many runs at once, and no casting holds the
 * same time twice running. Call it behind `lockCalendar`, which makes the count exact. Offers are not counted.
 */
export async function mayHold({ tx, who, now }: Ctx, casting: CastingToBook, run: RunProposal, kiln: Kiln): Promise<Outcome<Temporal.Instant>> {
  const { holdsEach } = await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } });
  const held = await tx.firing.findMany({ where: { memberId: casting.memberId, status: "held", askId: null }, orderBy: { heldUntil: "asc" } });
  if (held.length >= holdsEach) {
    const next = held[0]?.heldUntil;
    const free = next ? ` Confirm one or let one go; the next of them lapses by itself ${showTime(toInstant(next), who.timeZone)}.` : "";
    return refuse({
      code: "too-many-holds",
      value: held.length,
      allowed: `${holdsEach} at once`,
      message: holdsEach === 0 ? "In this workshop runs are booked, not held." : `${held.length === 1 ? "One run is" : `${held.length} runs are`} held already, and a member holds ${holdsEach} at most.${free}`,
    });
  }
  const again = againFrom(await earlierHolds(tx, casting.castingId), { kilnId: run.kilnId, kiln: { start: run.kilnFrom, end: run.kilnTo } }, now);
  if (again !== undefined) {
    const from = showTime(again, who.timeZone);
    return refuse({
      code: "held-before",
      field: "kilnFrom",
      allowed: `${from} or later`,
      message: `${casting.title} held some of this time on ${kiln.name} before, and may hold it again from ${from} on. Until then it can be booked, or another time held.`,
      data: { until: again.toString() },
    });
  }
  const starts = firstStart(run);
  const until = heldUntil(now, starts);
  if (isWorthHolding(until, now)) return ok(until);
  return refuse({
    code: "starts-too-soon",
    field: "kilnFrom",
    allowed: `a run that begins in ${LEAST_MINUTES} minutes or later`,
    message: `This run begins ${showTime(starts, who.timeZone)}, and a hold ends when its run begins. Book it, or hold a later one.`,
  });
}

export function firstStart({ bookings, lifts, kilnFrom }: RunProposal): Temporal.Instant {
  return [...bookings, ...lifts].map(({ start }) => start).toSorted(Temporal.Instant.compare)[0] ?? kilnFrom;
}
