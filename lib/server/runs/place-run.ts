import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { inspectionSpans } from "@/lib/domain/booking/inspection";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { runAt } from "@/lib/domain/booking/run-at";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { NO_STEPS, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import type { CtxOf } from "@/lib/server/command";
import { loadCalendarAround } from "@/lib/server/rows/calendar-around";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { loadGround, type Ground } from "@/lib/server/runs/ground";
import { plannedOnce } from "@/lib/server/runs/plan-cache";
import { loadRunQuestion, whoseTime } from "@/lib/server/runs/run-question";
import { sendLater, sql, type Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

export type Wanted = {
  readonly input: CastingInput;
  readonly neededBy: Temporal.PlainDate | null;
  readonly ownerId: string;
  readonly kilnId: string;
  readonly kilnFrom: Temporal.Instant;
  /** The steam-out that was offered; another one would not be what the person agreed to. */
  readonly steamFrom?: Temporal.Instant | undefined;
  readonly withoutFiring?: string | undefined;
  readonly steamedOutAt?: Temporal.Instant | undefined;
  /** Kept when a run is moved on its own kiln; otherwise the casting is planned anew for the kiln. */
  readonly plan?: CastingPlan | undefined;
};

export type Placed = {
  readonly run: RunProposal;
  readonly plan: CastingPlan;
  /** What the plan was computed from, the kiln's own figures included. */
  readonly planInput: CastingInput;
  readonly kiln: Kiln;
};

/** What a look at the calendar needs of a command, or of a screen that asks the same. */
type Looking = Pick<CtxOf<Statements>, "tx" | "now"> & { readonly who: Place };

/** Takes the locks that keep a placed run true until it is written, and says which. */
export type Hold = { readonly take: (placed: Placed) => Promise<readonly string[]>; readonly partsOf: (placed: Placed) => readonly string[] };

/** Somebody may take a place between a look and its locks, and then another; so often it is looked again. */
const MOST_LOOKS = 4;

/**
 * Whether this run still stands, on what the calendar holds now, never on what a page knew when it was rendered: call
 * it behind lockCalendar, or behind shareCalendar with `hold`. Then what the run would hold in an empty calendar is
 * locked first, and it is decided behind those locks; where it needs others, they are taken and it is decided again. A
 * refusal says who holds what until when.
 */
export async function placeRun(ctx: Looking, wanted: Wanted, hold?: Hold): Promise<Outcome<Placed>> {
  const prepared = await prepare(ctx, wanted);
  if (!prepared.ok) return prepared;
  if (hold === undefined) return decide(ctx, wanted, prepared.value);
  const guess = await decideAround(ctx, wanted, prepared.value, NOTHING_TAKEN);
  const held = new Set(guess?.ok === true ? await hold.take(guess.value) : []);
  for (let look = 0; look < MOST_LOOKS; look++) {
    const placed = await decide(ctx, wanted, prepared.value);
    if (!placed.ok || hold.partsOf(placed.value).every((part) => held.has(part))) return placed;
    for (const part of await hold.take(placed.value)) held.add(part);
  }
  return refuse({ code: "changed-meanwhile", field: "kilnFrom", message: "Others book the same hours at this moment. Look at the offers again." });
}

type Prepared = { readonly ground: Ground; readonly kiln: Kiln; readonly plan: CastingPlan; readonly planInput: CastingInput };

async function prepare({ tx, who, now }: Looking, wanted: Wanted): Promise<Outcome<Prepared>> {
  const { kilnId, kilnFrom } = wanted;
  if (Temporal.Instant.compare(kilnFrom, now) <= 0) {
    return refuse({
      code: "in-the-past",
      field: "kilnFrom",
      value: kilnFrom.toString(),
      message: `The kiln cannot start at ${showTime(kilnFrom, who.timeZone)}: that is past. Choose a later time.`,
    });
  }
  const ground = await loadGround(tx, who, { from: now, ownerId: wanted.ownerId, kilnId });
  const [kiln] = await kilnsToPlan(tx, ground.equipment, ground.recordVersions);
  if (kiln === undefined) return refuse({ code: "not-found", field: "kilnId", message: "There is no such kiln in this workshop." });
  const planInput = inputForKiln(wanted.input, kiln);
  const planned = wanted.plan === undefined ? plannedOnce(planInput, await meshOf(tx, planInput)) : ok(wanted.plan);
  return planned.ok ? ok({ ground, kiln, plan: planned.value, planInput }) : planned;
}

async function decide(ctx: Looking, wanted: Wanted, prepared: Prepared): Promise<Outcome<Placed>> {
  const quick = await decideAround(ctx, wanted, prepared);
  if (quick?.ok === true) return quick;
  // What is refused is looked at again with the whole calendar: it says who is in the way, and what would do instead.
  const run = runAt(await wholeQuestion(ctx, wanted, prepared), prepared.kiln.equipmentId, wanted.kilnFrom);
  return run.ok ? asAgreed(ctx, wanted, prepared, run.value) : run;
}

/** Decided on what lies around the run; undefined where that is not known before. */
async function decideAround(ctx: Looking, wanted: Wanted, prepared: Prepared, calendar?: TakenCalendar): Promise<Outcome<Placed> | undefined> {
  const question = await questionAround(ctx, wanted, prepared, calendar);
  if (question === undefined) return undefined;
  const run = runAt(question, prepared.kiln.equipmentId, wanted.kilnFrom);
  return run.ok ? asAgreed(ctx, wanted, prepared, run.value) : run;
}

function asAgreed({ who }: Looking, { steamFrom }: Wanted, { kiln, plan, planInput }: Prepared, run: RunProposal): Outcome<Placed> {
  const moved = steamMoved(run, steamFrom);
  return moved ? refuse(steamTaken(moved, who.timeZone)) : ok({ run, plan, planInput, kiln });
}

const NOTHING_TAKEN: TakenCalendar = { busy: new Map(), lifts: NO_STEPS, heating: NO_STEPS };

function asked({ now }: Looking, { input, neededBy, kilnId, steamFrom, ownerId, steamedOutAt }: Wanted, plan: CastingPlan) {
  return {
    plan,
    planByKiln: new Map([[kilnId, plan]]),
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    // Nothing of the run starts before its steam-out, so the search finds that one and no earlier one.
    notBefore: steamFrom !== undefined && Temporal.Instant.compare(steamFrom, now) > 0 ? steamFrom : now,
    neededBy,
    perKiln: 1,
    ownerId,
    steamedOutAt,
  };
}

async function wholeQuestion(ctx: Looking, wanted: Wanted, { kiln, plan }: Prepared): Promise<RunQuestion> {
  const { tx, who, now } = ctx;
  // How much is still to come decides how to read it all: no longer one plan for all values.
  await sendLater(tx, sql`SELECT set_config('plan_cache_mode', 'auto', true)`);
  const ground = await loadGround(tx, who, { from: now, ownerId: wanted.ownerId });
  const named = whoseTime(ground.equipment, kiln, wanted.kilnFrom, plan);
  return loadRunQuestion(tx, who, { ...asked(ctx, wanted, plan), equipment: ground.equipment, ground, named, withoutFiring: wanted.withoutFiring });
}

/** After a firing the unloading finds its place within days, or the whole calendar is looked at. */
const UNLOADED_WITHIN_HOURS = 96;

/** Only what lies around a run whose times are known but for the unloading; undefined where they are not. */
async function questionAround(ctx: Looking, wanted: Wanted, { ground, kiln, plan }: Prepared, given?: TakenCalendar): Promise<RunQuestion | undefined> {
  const { kilnFrom, steamFrom, withoutFiring } = wanted;
  if (withoutFiring !== undefined || (steamFrom === undefined && plan.steamOut.hours > 0)) return undefined;
  const question = asked(ctx, wanted, plan);
  const dayBefore = kilnFrom.subtract({ hours: 24 });
  const from = Temporal.Instant.compare(dayBefore, ctx.now) < 0 ? ctx.now : dayBefore;
  const opened = kilnFrom.add({ minutes: Math.floor(plan.reservation.hours * 60) });
  const horizon = opened.add({ hours: UNLOADED_WITHIN_HOURS + Math.ceil(kiln.limits.turnaroundHours) });
  const calendar = given ?? await loadCalendarAround(ctx.tx, {
    kilnId: kiln.equipmentId,
    otherIds: ground.equipment.filter((piece) => piece.kind !== "kiln").map((piece) => piece.equipmentId),
    before: { from: steamFrom ?? from, to: kilnFrom },
    heating: { from: kilnFrom, to: kilnFrom.add({ minutes: Math.ceil(heatingHours(plan.firing.stages) * 60) }) },
    after: { from: opened, to: horizon },
  });
  return {
    ...question, calendar, horizon, equipment: ground.equipment, hours: ground.hours, powerLimitKw: ground.powerLimitKw, notShown: ground.notShown,
    busy: [...ground.outages, ...inspectionSpans(ground.equipment, ctx.who.timeZone)], lifts: [], heating: [],
    notBefore: steamFrom === undefined ? from : question.notBefore,
  };
}

function steamMoved(run: RunProposal, offered: Temporal.Instant | undefined): Temporal.Instant | undefined {
  const steam = run.bookings.find((booking) => booking.purpose === "steam-out");
  return offered === undefined || steam === undefined || steam.start.equals(offered) ? undefined : steam.start;
}

function steamTaken(instead: Temporal.Instant, timeZone: string) {
  return {
    code: "steam-out-taken",
    field: "steamFrom",
    message: `The steam-out that was offered is no longer free; the next one in time for this kiln starts ${showTime(instead, timeZone)}. Look at the offers again.`,
    data: { steamFrom: instead.toString() },
  };
}
