import type { Clash, ClashState, Outage, StandingBooking, StandingRun } from "@/lib/domain/booking/clash";
import { clashOf, equipmentName, firingName, later, sooner, staysText } from "@/lib/domain/booking/clash-names";
import { showTime } from "@/lib/domain/time/show-time";

/** Equipment out of service while a firing has it booked: one clash for each outage and firing. */
export function outageClashes(state: ClashState): readonly Clash[] {
  return state.outages.flatMap((outage) => state.runs.flatMap((run) => outageOfRun(state, outage, run)));
}

function outageOfRun(state: ClashState, outage: Outage, run: StandingRun): Clash[] {
  const hit = run.bookings.filter((booking) => booking.equipmentId === outage.equipmentId && outLasts(outage, booking));
  const [first, ...rest] = hit;
  if (first === undefined) return [];
  const start = rest.reduce((soonest, booking) => sooner(soonest, booking.start), first.start);
  const end = rest.reduce((latest, booking) => later(latest, booking.end), first.end);
  const zone = state.hours.timeZone;
  const until = outage.to === null ? "until further notice" : `until ${showTime(outage.to, zone)}`;
  const purposes = [...new Set(hit.map((booking) => NEEDED_FOR[booking.purpose]))].join(" and ");
  return [
    clashOf("outage", [outage.outageId, run.firingId], { start: later(start, outage.from), end: outage.to === null ? end : sooner(end, outage.to) }, [run], {
      equipmentIds: [outage.equipmentId],
      askIds: [],
      sentence: `${equipmentName(state, outage.equipmentId)} is out of service from ${showTime(outage.from, zone)} ${until} (${outage.reason}); ${firingName(run)} needs it ${purposes} from ${showTime(first.start, zone)}.${staysText([run])}`,
    }),
  ];
}

const NEEDED_FOR = {
  "steam-out": "to steam out",
  load: "to load",
  kiln: "to fire",
  unload: "to unload",
} as const satisfies Record<StandingBooking["purpose"], string>;

function outLasts(outage: Outage, booking: StandingBooking): boolean {
  const from = Math.max(outage.from.epochMilliseconds, booking.start.epochMilliseconds);
  const to = Math.min(outage.to?.epochMilliseconds ?? Infinity, booking.end.epochMilliseconds);
  return from < to;
}
