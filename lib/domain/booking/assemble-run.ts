import { Temporal } from "temporal-polyfill";
import type { Lift } from "@/lib/domain/firing/casting-plan";
import type { Equipment, Kiln } from "@/lib/domain/booking/equipment";
import type { Span } from "@/lib/domain/booking/free-time";
import { liftMinutes, liftOf, liftsOf as plannedLifts, type RunNeeds } from "@/lib/domain/booking/run-needs";
import { STEAMER_LIFT_MINUTES, type RunBooking, type RunLift, type RunProposal } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { Slots } from "@/lib/domain/booking/run-search";
import { localDate } from "@/lib/domain/booking/search-space";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";

/** Turns found times into the bookings and lifts that are offered, booked and printed. */
export function assembleRun(question: RunQuestion, kiln: Kiln, needs: RunNeeds, slots: Slots): RunProposal {
  const { load, unload, steam } = slots;
  return {
    kilnId: kiln.equipmentId,
    steamerId: steam?.steamerId ?? null,
    trolleyIdLoad: load.trolleyId,
    trolleyIdUnload: unload.trolleyId,
    bookings: bookingsOf(kiln, needs, slots),
    lifts: liftsOf(question.equipment, kiln, needs, slots),
    kilnFrom: instant(load.end),
    kilnTo: instant(slots.kilnTo),
    readyAt: instant(unload.end),
    heatingHours: needs.heatingHours,
    daysLate: daysLate(question, unload.end),
  };
}

function bookingsOf(kiln: Kiln, needs: RunNeeds, { load, unload, kilnTo, steam }: Slots): RunBooking[] {
  const bookings: RunBooking[] = [];
  if (steam !== null && needs.steam !== null) {
    bookings.push({ purpose: "steam-out", equipmentId: steam.steamerId, ...interval(steam), hands: needs.steam.hands });
  }
  if (load.trolleyId !== null) {
    bookings.push({ purpose: "load", equipmentId: load.trolleyId, ...interval(load), hands: needs.load.hands });
  }
  bookings.push({ purpose: "kiln", equipmentId: kiln.equipmentId, ...interval({ start: load.end, end: kilnTo }), hands: 0 });
  if (unload.trolleyId !== null) {
    bookings.push({ purpose: "unload", equipmentId: unload.trolleyId, ...interval(unload), hands: needs.unload.hands });
  }
  return bookings;
}

export const MOULD_BENCH = "Mould bench";
export const DRYING_RACK = "Drying rack";
const DEMOULDING_BENCH = "Demoulding bench";

function liftsOf(equipment: readonly Equipment[], kiln: Kiln, needs: RunNeeds, { load, unload, steam }: Slots): RunLift[] {
  const lifts: (RunLift | null)[] = [];
  if (steam !== null) {
    const length = STEAMER_LIFT_MINUTES * MS_PER_MINUTE;
    const steamer = equipment.find((item) => item.equipmentId === steam.steamerId)?.name ?? steam.steamerId;
    const put = { start: steam.start, end: steam.start + length };
    const taken = { start: steam.end - length, end: steam.end };
    lifts.push(
      oneLift(needs, "to-steamer", put, null, MOULD_BENCH, steamer),
      oneLift(needs, "from-steamer", taken, null, steamer, DRYING_RACK),
    );
  }
  lifts.push(
    ...oneAfterAnother(needs, "load", load, load.trolleyId, needs.plan.steamOut.hours > 0 ? DRYING_RACK : MOULD_BENCH, kiln.name),
    ...oneAfterAnother(needs, "unload", unload, unload.trolleyId, kiln.name, DEMOULDING_BENCH),
  );
  return lifts.filter((lift) => lift !== null);
}

function oneLift(needs: RunNeeds, what: Lift["what"], span: Span, trolleyId: string | null, fromPlace: string, toPlace: string): RunLift | null {
  const lift = liftOf(needs.plan, what);
  return lift === undefined ? null : plannedLift(lift, span, trolleyId, fromPlace, toPlace);
}

export function plannedLift({ what, kg, hands, mouldState, hot, wet, flag, castingId }: Lift, span: Span, trolleyId: string | null, fromPlace: string, toPlace: string): RunLift {
  return { what, ...interval(span), kg, hands, trolleyId, mouldState, hot, wet, fromPlace, toPlace, flag, ...(castingId === undefined ? {} : { castingId }) };
}

/** The movements of a shared load follow each other with the same trolley and the same hands. */
function oneAfterAnother({ plan }: RunNeeds, what: "load" | "unload", span: Span, trolleyId: string | null, fromPlace: string, toPlace: string): RunLift[] {
  let start = span.start;
  return plannedLifts(plan, what).map((lift) => {
    const own = { start, end: start + liftMinutes(lift) * MS_PER_MINUTE };
    start = own.end;
    return plannedLift(lift, own, trolleyId, fromPlace, toPlace);
  });
}

/** The needed-by day itself is in time. */
function daysLate(question: RunQuestion, readyAt: number): number {
  if (question.neededBy === null) return 0;
  const ready = localDate(readyAt, question.hours.timeZone);
  return Math.max(0, question.neededBy.until(ready, { largestUnit: "days" }).days);
}

export function interval(span: Span): { start: Temporal.Instant; end: Temporal.Instant } {
  return { start: instant(span.start), end: instant(span.end) };
}

/** Half a millisecond of a long firing is nothing; a fraction would not be an instant at all. */
function instant(epochMs: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs));
}
