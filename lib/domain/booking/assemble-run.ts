import { Temporal } from "temporal-polyfill";
import type { Lift } from "@/lib/domain/firing/casting-plan";
import type { Equipment, Kiln } from "@/lib/domain/booking/equipment";
import type { Span } from "@/lib/domain/booking/free-time";
import { liftMinutes, liftOf, liftsOf as plannedLifts, type RunNeeds } from "@/lib/domain/booking/run-needs";
import { STEAMER_LIFT_MINUTES, type RunBookingAt, type RunLift, type RunLiftAt, type RunProposalAt } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { Slots } from "@/lib/domain/booking/run-search";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { dateOf, localDay } from "@/lib/domain/time/zone-days";

/** Turns found times into the bookings and lifts that are offered, booked and printed. `at` makes a time of epoch milliseconds. */
export function assembleRun<T>(question: RunQuestion, kiln: Kiln, needs: RunNeeds, slots: Slots, at: (epochMs: number) => T): RunProposalAt<T> {
  const { load, unload, steam } = slots;
  return {
    kilnId: kiln.equipmentId,
    steamerId: steam?.steamerId ?? null,
    trolleyIdLoad: load.trolleyId,
    trolleyIdUnload: unload.trolleyId,
    bookings: bookingsOf(kiln, needs, slots, at),
    lifts: liftsOf(question.equipment, kiln, needs, slots, at),
    kilnFrom: at(load.end),
    kilnTo: at(slots.kilnTo),
    readyAt: at(unload.end),
    heatingHours: needs.heatingHours,
    daysLate: daysLate(question, unload.end),
  };
}

function bookingsOf<T>(kiln: Kiln, needs: RunNeeds, { load, unload, kilnTo, steam }: Slots, at: (epochMs: number) => T): RunBookingAt<T>[] {
  const bookings: RunBookingAt<T>[] = [];
  const interval = ({ start, end }: Span) => ({ start: at(start), end: at(end) });
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

function liftsOf<T>(equipment: readonly Equipment[], kiln: Kiln, needs: RunNeeds, { load, unload, steam }: Slots, at: (epochMs: number) => T): RunLiftAt<T>[] {
  const lifts: (RunLiftAt<T> | null)[] = [];
  const lift = (what: Lift["what"], { start, end }: Span, trolleyId: string | null, fromPlace: string, toPlace: string) =>
    oneLift(needs, what, { start: at(start), end: at(end) }, trolleyId, fromPlace, toPlace);
  if (steam !== null) {
    const length = STEAMER_LIFT_MINUTES * MS_PER_MINUTE;
    const steamer = equipment.find((item) => item.equipmentId === steam.steamerId)?.name ?? steam.steamerId;
    const put = { start: steam.start, end: steam.start + length };
    const taken = { start: steam.end - length, end: steam.end };
    lifts.push(
      lift("to-steamer", put, null, MOULD_BENCH, steamer),
      lift("from-steamer", taken, null, steamer, DRYING_RACK),
    );
  }
  lifts.push(
    ...oneAfterAnother(needs, "load", load, load.trolleyId, needs.plan.steamOut.hours > 0 ? DRYING_RACK : MOULD_BENCH, kiln.name, at),
    ...oneAfterAnother(needs, "unload", unload, unload.trolleyId, kiln.name, DEMOULDING_BENCH, at),
  );
  return lifts.filter((lift) => lift !== null);
}

function oneLift<T>(needs: RunNeeds, what: Lift["what"], span: { readonly start: T; readonly end: T }, trolleyId: string | null, fromPlace: string, toPlace: string): RunLiftAt<T> | null {
  const lift = liftOf(needs.plan, what);
  return lift === undefined ? null : liftAt(lift, span, trolleyId, fromPlace, toPlace);
}

export function plannedLift(lift: Lift, span: Span, trolleyId: string | null, fromPlace: string, toPlace: string): RunLift {
  return liftAt(lift, interval(span), trolleyId, fromPlace, toPlace);
}

function liftAt<T>({ what, kg, hands, mouldState, hot, wet, flag, castingId }: Lift, span: { readonly start: T; readonly end: T }, trolleyId: string | null, fromPlace: string, toPlace: string): RunLiftAt<T> {
  return { what, ...span, kg, hands, trolleyId, mouldState, hot, wet, fromPlace, toPlace, flag, ...(castingId === undefined ? {} : { castingId }) };
}

/** The movements of a shared load follow each other with the same trolley and the same hands. */
function oneAfterAnother<T>({ plan }: RunNeeds, what: "load" | "unload", span: Span, trolleyId: string | null, fromPlace: string, toPlace: string, at: (epochMs: number) => T): RunLiftAt<T>[] {
  let start = span.start;
  return plannedLifts(plan, what).map((lift) => {
    const own = { start: at(start), end: at(start + liftMinutes(lift) * MS_PER_MINUTE) };
    start += liftMinutes(lift) * MS_PER_MINUTE;
    return liftAt(lift, own, trolleyId, fromPlace, toPlace);
  });
}

/** The needed-by day itself is in time. */
function daysLate(question: RunQuestion, readyAt: number): number {
  if (question.neededBy === null) return 0;
  const ready = dateOf(localDay(readyAt, question.hours.timeZone));
  return Math.max(0, question.neededBy.until(ready, { largestUnit: "days" }).days);
}

export function interval(span: Span): { start: Temporal.Instant; end: Temporal.Instant } {
  return { start: atInstant(span.start), end: atInstant(span.end) };
}

/** Half a millisecond of a long firing is nothing; a fraction would not be an instant at all. */
export function atInstant(epochMs: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs));
}
