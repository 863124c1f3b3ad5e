import { Temporal } from "temporal-polyfill";
import { inspectionSpans } from "@/lib/domain/booking/inspection";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { startOfLocalDay } from "@/lib/domain/booking/search-space";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import { NO_STEPS, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { loadCalendarAround, type Stretch } from "@/lib/server/rows/calendar-around";
import { loadGround } from "@/lib/server/runs/ground";
import type { Looking, Prepared, Wanted } from "@/lib/server/runs/place-run";
import { loadRunQuestion, whoseTime } from "@/lib/server/runs/run-question";
import { sendLater, sql } from "@/lib/server/statements";

/** After a firing the unloading finds its place within days, or the whole calendar is looked at. */
const UNLOADED_WITHIN_HOURS = 96;

const NOTHING_TAKEN: TakenCalendar = { busy: new Map(), lifts: NO_STEPS, heating: NO_STEPS };

/** As if nobody else had booked anything; undefined where the run's times are not all known but for the unloading. */
export function questionAlone(looking: Looking, wanted: Wanted, prepared: Prepared): RunQuestion | undefined {
  if (wanted.withoutFiring !== undefined || (wanted.steamFrom === undefined && prepared.plan.steamOut.hours > 0)) return undefined;
  return questionWith(looking, wanted, prepared, NOTHING_TAKEN, farthest(wanted, prepared));
}

/** How far it is looked for the unloading: to the end of the day on which it would be alone, then for days. */
export function reaches({ who }: Looking, wanted: Wanted, prepared: Prepared, alone: RunProposal): readonly Temporal.Instant[] {
  const { turnaroundHours } = prepared.kiln.limits;
  const sameDay = endOfDay(alone.readyAt, who.timeZone).add({ hours: Math.ceil(turnaroundHours) });
  const most = farthest(wanted, prepared);
  return Temporal.Instant.compare(sameDay, most) < 0 ? [sameDay, most] : [most];
}

export type Around = { readonly question: RunQuestion; readonly holds: (run: RunProposal) => boolean };

/** What is taken around a run as it would be alone; `holds` tells whether all that a run needs lies in what was looked at. */
export async function questionAround(looking: Looking, wanted: Wanted, prepared: Prepared, alone: RunProposal, horizon: Temporal.Instant): Promise<Around> {
  const { kiln, plan } = prepared;
  const { kilnFrom } = wanted;
  const { timeZone } = looking.who;
  const before = attendedOf(alone).filter(({ from }) => Temporal.Instant.compare(from, kilnFrom) < 0);
  // Who lifts it out of the steamer may come later than alone, on the same day.
  const attended = [...before.map(({ from, to }) => ({ from, to: endOfDay(to, timeZone) })), { from: opened(wanted, prepared), to: horizon }];
  const first = before.reduce((earliest, { from }) => (Temporal.Instant.compare(from, earliest) < 0 ? from : earliest), kilnFrom);
  const calendar = await loadCalendarAround(looking.tx, {
    kilnId: kiln.equipmentId,
    inKiln: { from: first, to: horizon },
    attended,
    heating: { from: kilnFrom, to: kilnFrom.add({ minutes: Math.ceil(heatingHours(plan.firing.stages) * 60) }) },
  });
  const isIn = (one: Stretch) => attended.some(({ from, to }) => Temporal.Instant.compare(from, one.from) <= 0 && Temporal.Instant.compare(one.to, to) <= 0);
  return { question: questionWith(looking, wanted, prepared, calendar, horizon), holds: (run) => attendedOf(run).every(isIn) };
}

/** Everything that is still to come, by name where it is in the way. */
export async function wholeQuestion(looking: Looking, wanted: Wanted, { kiln, plan }: Prepared): Promise<RunQuestion> {
  const { tx, who, now } = looking;
  // How much is still to come decides how to read it all: no longer one plan for all values.
  await sendLater(tx, sql`SELECT set_config('plan_cache_mode', 'auto', true)`);
  const ground = await loadGround(tx, who, { from: now, ownerId: wanted.ownerId });
  const named = whoseTime(ground.equipment, kiln, wanted.kilnFrom, plan);
  return loadRunQuestion(tx, who, { ...asked(looking, wanted, plan), equipment: ground.equipment, ground, named, withoutFiring: wanted.withoutFiring });
}

function asked({ now }: Looking, { input, neededBy, kilnId, steamFrom, ownerId, steamedOutAt }: Wanted, plan: Prepared["plan"]) {
  return {
    plan,
    planByKiln: new Map([[kilnId, plan]]),
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    // Nothing of the run starts before its steam-out.
    notBefore: steamFrom !== undefined && Temporal.Instant.compare(steamFrom, now) > 0 ? steamFrom : now,
    neededBy,
    perKiln: 1,
    ownerId,
    steamedOutAt,
  };
}

function questionWith(looking: Looking, wanted: Wanted, { ground, plan }: Prepared, calendar: TakenCalendar, horizon: Temporal.Instant): RunQuestion {
  const { equipment, hours, powerLimitKw, notShown, outages } = ground;
  return {
    ...asked(looking, wanted, plan), steamFrom: wanted.steamFrom, calendar, horizon, equipment, hours, powerLimitKw, notShown,
    busy: [...outages, ...inspectionSpans(equipment, looking.who.timeZone)], lifts: [], heating: [],
  };
}

/** When the kiln may be opened. */
function opened({ kilnFrom }: Wanted, { plan }: Prepared): Temporal.Instant {
  return kilnFrom.add({ minutes: Math.floor(plan.reservation.hours * 60) });
}

function farthest(wanted: Wanted, prepared: Prepared): Temporal.Instant {
  return opened(wanted, prepared).add({ hours: UNLOADED_WITHIN_HOURS + Math.ceil(prepared.kiln.limits.turnaroundHours) });
}

/** When somebody, a steamer or a trolley is needed. */
function attendedOf({ bookings, lifts }: RunProposal): readonly Stretch[] {
  return [...bookings.filter(({ purpose }) => purpose !== "kiln"), ...lifts].map(({ start, end }) => ({ from: start, to: end }));
}

function endOfDay(instant: Temporal.Instant, timeZone: string): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(startOfLocalDay(instant.epochMilliseconds - 1, timeZone, 1));
}
