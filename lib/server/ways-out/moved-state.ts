import { takenByRun, type RunTaken } from "@/lib/domain/booking/calendar-change";
import type { ClashState, StandingBooking, StandingRun } from "@/lib/domain/booking/clash";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { BusySpan, HeatingSpan } from "@/lib/domain/booking/run-question";
import { toInstant } from "@/lib/server/clock";
import type { NamedTime, WhoseTime } from "@/lib/server/rows/named-time";
import type { MovingAsk, MovingFiring } from "@/lib/server/rows/moving-runs";
import { purposeOf } from "@/lib/server/rows/standing-runs";
import type { Placed } from "@/lib/server/runs/place-run";

export function kwOf({ equipment }: ClashState, kilnId: string): number {
  return equipment.find((piece): piece is Kiln => piece.kind === "kiln" && piece.equipmentId === kilnId)?.limits.powerKw ?? 0;
}

/** What a run takes of the calendar now and gives up when it moves. */
export function standingTaken(state: ClashState, { firing, keptBookings, givenUpLifts }: MovingFiring): RunTaken {
  const bookings = firing.bookings.filter((one) => !keptBookings.includes(one)).map(({ purpose, equipmentId, startsAt, endsAt }) => ({ purpose: purposeOf(purpose), equipmentId, start: toInstant(startsAt), end: toInstant(endsAt) }));
  const kiln = bookings.find(({ purpose }) => purpose === "kiln");
  return takenByRun({ bookings, lifts: givenUpLifts, heatingHours: firing.heatingHours }, kiln === undefined ? 0 : kwOf(state, kiln.equipmentId));
}

/** All that stands once this run was placed too. */
export function afterMove(before: ClashState, sofar: ClashState, { moving, ask }: { readonly moving: MovingFiring | null; readonly ask: MovingAsk | null }, { run, plan }: Placed): ClashState {
  const firingId = moving?.firing.firingId ?? ask?.askId ?? "";
  const stood = before.runs.find((one) => one.firingId === firingId);
  const keptIds = new Set(moving?.keptBookings.map(({ bookingId }) => bookingId));
  const standing: StandingRun = {
    firingId,
    title: stood?.title ?? ask?.casting.title ?? "",
    ownerMemberId: stood?.ownerMemberId ?? ask?.casting.memberId ?? "",
    ownerName: stood?.ownerName ?? ask?.member.name ?? "",
    status: "planned",
    kilnId: run.kilnId,
    bookings: [...(stood?.bookings.filter(({ bookingId }) => keptIds.has(bookingId)) ?? []), ...run.bookings.map((booking, i): StandingBooking => ({ ...booking, bookingId: `${firingId}/${i}` }))],
    lifts: [...(moving?.keptLifts ?? []), ...run.lifts],
    heatingHours: run.heatingHours,
    expectedEnd: null,
    // On its own kiln it keeps its plan, and what its casting has asked for since.
    plannedHours: stood?.kilnId === run.kilnId ? stood.plannedHours : plan.reservation.hours,
  };
  return { ...sofar, runs: [...sofar.runs, standing], asks: sofar.asks.filter(({ askId }) => askId !== ask?.askId) };
}

/** Who holds these pieces in that time, and which kilns heat in it: for telling people, not for searching. */
export function namedTime(state: ClashState, { equipmentIds, from, until }: WhoseTime): NamedTime {
  const within = ({ start, end }: StandingBooking): boolean => start.epochMilliseconds < until.epochMilliseconds && end.epochMilliseconds > from.epochMilliseconds;
  const busy = state.runs.flatMap((run) => run.bookings.filter((one) => equipmentIds.includes(one.equipmentId) && within(one)).map((one): BusySpan => {
    const load = run.bookings.find(({ purpose }) => purpose === "load");
    const loadingFrom = one.purpose === "kiln" && load !== undefined ? { loadingFrom: load.start } : {};
    return { equipmentId: one.equipmentId, start: one.start, end: one.end, holder: `${run.ownerName} for ${run.title}`, ...loadingFrom };
  }));
  const heating = state.runs.flatMap((run) => run.bookings.filter((one) => one.purpose === "kiln" && within(one)).map(({ equipmentId, start }): HeatingSpan => {
    return { kilnId: equipmentId, start, end: start.add({ seconds: Math.round(run.heatingHours * 3600) }), kw: kwOf(state, equipmentId) };
  }));
  return { busy, heating };
}
