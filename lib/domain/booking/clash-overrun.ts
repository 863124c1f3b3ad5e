import { Temporal } from "temporal-polyfill";
import type { Clash, ClashState, StandingBooking, StandingRun } from "@/lib/domain/booking/clash";
import { clashOf, equipmentName, firingName, kilnBooking, later, listed, staysText } from "@/lib/domain/booking/clash-names";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import { showHours, showTime } from "@/lib/domain/time/show-time";

/** Firings that need their kiln beyond what is booked, and the firings that would be touched. */
export function overrunClashes(state: ClashState): readonly Clash[] {
  return state.runs.flatMap((run) => {
    const kiln = kilnBooking(run);
    return kiln === undefined ? [] : overrunOf(state, run, kiln);
  });
}

function overrunOf(state: ClashState, run: StandingRun, kiln: StandingBooking): Clash[] {
  // The kiln must be cool when unloading starts; what follows (unloading, turnaround) moves with it.
  const dueCool = run.bookings.find((booking) => booking.purpose === "unload")?.start ?? kiln.end;
  const cool = run.expectedEnd ?? kiln.start.add({ milliseconds: Math.round(run.plannedHours * MS_PER_HOUR) });
  const overMs = cool.epochMilliseconds - dueCool.epochMilliseconds;
  if (!(overMs > 0)) return [];
  const free = kiln.end.add({ milliseconds: overMs });
  const touched = state.runs.filter((other) => other !== run && needsBefore(other, kiln, free));
  const zone = state.hours.timeZone;
  const name = equipmentName(state, kiln.equipmentId);
  const because = run.expectedEnd === null ? `its plan now takes ${showHours(run.plannedHours)}` : `it is expected to be cool only at ${showTime(cool, zone)}`;
  const consequence =
    touched.length === 0
      ? `No other firing is touched; the booking is too short.`
      : `This touches ${listed(touched.map((other) => `${firingName(other)}, which needs ${name} from ${showTime(neededFrom(other, kiln.equipmentId) ?? free, zone)}`))}.`;
  return [
    clashOf("overrun", [run.firingId], { start: dueCool, end: later(free, cool) }, [run, ...touched], {
      equipmentIds: [kiln.equipmentId],
      askIds: [],
      sentence: `${firingName(run)} on ${name} runs ${showHours(overMs / MS_PER_HOUR)} over: ${because}, and is booked to be unloaded at ${showTime(dueCool, zone)}. ${consequence}${staysText([run, ...touched])}`,
    }),
  ];
}

/** True for a firing that comes after this one on the same kiln and needs it before it would be free. */
function needsBefore(other: StandingRun, kiln: StandingBooking, free: Temporal.Instant): boolean {
  const from = neededFrom(other, kiln.equipmentId);
  const theirs = kilnBooking(other);
  if (from === undefined || theirs === undefined) return false;
  return Temporal.Instant.compare(theirs.start, kiln.start) > 0 && Temporal.Instant.compare(from, free) < 0;
}

/** From when a firing needs a kiln: from the start of loading, which comes before the door is closed. */
function neededFrom(run: StandingRun, kilnId: string): Temporal.Instant | undefined {
  if (kilnBooking(run)?.equipmentId !== kilnId) return undefined;
  return run.bookings.find((booking) => booking.purpose === "load")?.start ?? kilnBooking(run)?.start;
}
