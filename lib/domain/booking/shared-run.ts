import { Temporal } from "temporal-polyfill";
import { DRYING_RACK, interval, MOULD_BENCH, plannedLift } from "@/lib/domain/booking/assemble-run";
import { runAt } from "@/lib/domain/booking/run-at";
import { runNeeds } from "@/lib/domain/booking/run-needs";
import { DRAIN_HOURS, STEAMER_LIFT_MINUTES, type RunBooking, type RunLift, type RunProposal } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { trySteam } from "@/lib/domain/booking/run-search";
import { searchSpace } from "@/lib/domain/booking/search-space";
import type { CastingPlan, SharedCasting } from "@/lib/domain/firing/casting-plan";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { showHours, showTime } from "@/lib/domain/time/show-time";

/** When the steam-out of a casting ends that stays where it is booked, by the casting's id. */
export type SteamKept = ReadonlyMap<string, Temporal.Instant>;

/**
 * The run of a shared firing whose door closes at exactly `kilnFrom`: kiln, loading and unloading for all, and
 * a steam-out for every casting whose own does not stay. Leave the firing's own bookings that are to be
 * replaced out of the question. Moulds are loaded one after another: those that have been drying longest first,
 * with those still to be steamed before or, where that does not do, behind them. Refused like `runAt`, or naming the
 * casting that cannot be steamed or dried in time.
 */
export function sharedRunAt(question: RunQuestion, plan: CastingPlan, kilnId: string, kilnFrom: Temporal.Instant, kept: SteamKept): Outcome<RunProposal> {
  const long = question.notBefore.subtract({ hours: DRAIN_HOURS });
  const base = runAt({ ...question, plan, planByKiln: new Map([[kilnId, plan]]), driedBeforeLoading: false, steamedOutAt: long }, kilnId, kilnFrom);
  if (!base.ok) return base;
  const castings = plan.castings ?? [];
  const ready = ({ castingId, driedBeforeLoading, drying }: SharedCasting): number => (kept.get(castingId)?.epochMilliseconds ?? 0) + (driedBeforeLoading ? drying.airDaysFrom * 24 * MS_PER_HOUR : 0);
  const dry = castings.filter(({ castingId }) => kept.has(castingId)).toSorted((a, b) => ready(a) - ready(b));
  const fresh = castings.filter(({ castingId }) => !kept.has(castingId));
  const first = steamAll(question, plan, base.value, [...fresh, ...dry], kept);
  if (first.ok || fresh.length === 0 || dry.length === 0) return first;
  const behind = steamAll(question, plan, base.value, [...dry, ...fresh], kept);
  return behind.ok ? behind : first;
}

/** The door of a shared firing closes no more than this later than that of the firing it grew from, hours: what was promised for a day stays on it or the next. */
export const MOST_LATER_HOURS = 24;

/** The first shared run from `kilnFrom` on, since several moulds take longer to load than one; else why not at once. */
export function firstSharedRun(question: RunQuestion, plan: CastingPlan, kilnId: string, kilnFrom: Temporal.Instant, kept: SteamKept): Outcome<RunProposal> {
  const last = kilnFrom.add({ hours: MOST_LATER_HOURS });
  const first = sharedRunAt(question, plan, kilnId, kilnFrom, kept);
  let tried = first;
  let start = kilnFrom;
  while (!tried.ok) {
    start = laterStart(tried, start);
    if (Temporal.Instant.compare(start, last) > 0) return first;
    tried = sharedRunAt(question, plan, kilnId, start, kept);
  }
  return tried;
}

/** The next start that the refusal names, or an hour later. */
function laterStart({ problems: [{ data }] }: Refusal, start: Temporal.Instant): Temporal.Instant {
  const named = typeof data?.["nextKilnStart"] === "string" ? Temporal.Instant.from(data["nextKilnStart"]) : undefined;
  return named !== undefined && Temporal.Instant.compare(named, start) > 0 ? named : start.add({ hours: 1 });
}

function steamAll(question: RunQuestion, plan: CastingPlan, base: RunProposal, order: readonly SharedCasting[], kept: SteamKept): Outcome<RunProposal> {
  let run = loadedInOrder(base, order);
  for (const casting of order) {
    const steamed = withSteam(question, plan, casting, run, kept.get(casting.castingId));
    if (!steamed.ok) return steamed;
    run = steamed.value;
  }
  return ok(run);
}

/** The same loading, its lifts in another order. */
function loadedInOrder(run: RunProposal, order: readonly SharedCasting[]): RunProposal {
  const loads = run.lifts.filter(({ what }) => what === "load");
  let start = Math.min(...loads.map((lift) => lift.start.epochMilliseconds));
  const placed = order.flatMap(({ castingId }) => loads.filter((lift) => lift.castingId === castingId)).map((lift) => {
    const length = lift.end.epochMilliseconds - lift.start.epochMilliseconds;
    const own = { ...lift, ...interval({ start, end: start + length }) };
    start += length;
    return own;
  });
  return { ...run, lifts: [...placed, ...run.lifts.filter(({ what }) => what !== "load")] };
}

function withSteam(question: RunQuestion, plan: CastingPlan, casting: SharedCasting, run: RunProposal, keptEnd: Temporal.Instant | undefined): Outcome<RunProposal> {
  if (!(casting.steamOut.hours > 0)) return ok(run);
  const own = planOf(plan, casting);
  const asked = { ...question, plan: own, planByKiln: new Map([[run.kilnId, own]]), driedBeforeLoading: casting.driedBeforeLoading, steamedOutAt: null, busy: [...question.busy, ...run.bookings], lifts: [...question.lifts, ...run.lifts] };
  const { needs, problems } = runNeeds(asked, own);
  if (needs === null || needs.steam === null) return refuse({ code: "lacking", message: `${casting.title}: ${problems.join(" ")}` });
  const loadStart = run.lifts.find(({ what, castingId }) => what === "load" && castingId === casting.castingId)?.start.epochMilliseconds ?? run.kilnFrom.epochMilliseconds;
  if (keptEnd !== undefined) {
    const ready = keptEnd.epochMilliseconds + needs.gapHours * MS_PER_HOUR;
    return ready <= loadStart ? ok(run) : tooWet(question, casting, keptEnd, needs.gapHours, loadStart);
  }
  const found = trySteam(searchSpace(asked), needs, loadStart);
  if (!("slot" in found)) return noSteam(question, casting, needs.steam.hours, loadStart);
  const { slot } = found;
  const lift = STEAMER_LIFT_MINUTES * MS_PER_MINUTE;
  const steamer = question.equipment.find(({ equipmentId }) => equipmentId === slot.steamerId)?.name ?? slot.steamerId;
  const booking: RunBooking = { purpose: "steam-out", equipmentId: slot.steamerId, ...interval(slot), hands: needs.steam.hands, castingId: casting.castingId };
  const lifts = own.lifts.flatMap((one): RunLift[] => {
    if (one.what === "to-steamer") return [plannedLift(one, { start: slot.start, end: slot.start + lift }, null, MOULD_BENCH, steamer)];
    return one.what === "from-steamer" ? [plannedLift(one, { start: slot.end - lift, end: slot.end }, null, steamer, DRYING_RACK)] : [];
  });
  return ok({ ...run, bookings: [booking, ...run.bookings], lifts: [...lifts, ...run.lifts] });
}

/** The plan as it concerns one casting before the kiln: its own mould, wax, steam-out and lifts. */
function planOf(plan: CastingPlan, { castingId, mould, waxKg, steamOut, drying }: SharedCasting): CastingPlan {
  return { ...plan, mould: { ...plan.mould, ...mould }, waxKg, steamOut, drying, lifts: plan.lifts.filter((lift) => lift.castingId === castingId) };
}

function tooWet({ hours }: RunQuestion, { title }: SharedCasting, steamed: Temporal.Instant, gapHours: number, loadStart: number): Refusal {
  const at = (ms: number): string => showTime(Temporal.Instant.fromEpochMilliseconds(Math.ceil(ms)), hours.timeZone);
  return refuse({
    code: "too-wet", field: "kilnFrom",
    message: `${title} is steamed out until ${showTime(steamed, hours.timeZone)} and waits ${showHours(gapHours)} before it is loaded; loading would start ${at(loadStart)}.`,
  });
}

function noSteam({ hours }: RunQuestion, { title }: SharedCasting, steamHours: number, loadStart: number): Refusal {
  return refuse({
    code: "no-steam-out", field: "castingId",
    message: `No steam-out of ${showHours(steamHours)} is free for ${title} in time before the loading at ${showTime(Temporal.Instant.fromEpochMilliseconds(loadStart), hours.timeZone)}, with its hands and time to drain or dry.`,
  });
}
