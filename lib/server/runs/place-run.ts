import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { inspectionSpans } from "@/lib/domain/booking/inspection";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { runAt } from "@/lib/domain/booking/run-at";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import type { Ctx } from "@/lib/server/command";
import { loadCalendarAround } from "@/lib/server/rows/calendar-around";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { loadGround, type Ground } from "@/lib/server/runs/ground";
import { plannedOnce } from "@/lib/server/runs/plan-cache";
import { loadRunQuestion, whoseTime } from "@/lib/server/runs/run-question";

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
type Looking = Pick<Ctx, "tx" | "who" | "now">;

/** Takes the locks that keep a placed run true until it is written. */
export type Hold = (placed: Placed) => Promise<void>;

/** Somebody may take a place between the look and the locks, and then another; so often it is looked again. */
const MOST_LOOKS = 4;

/**
 * Whether this run still stands, on what the calendar holds now, never on what a page knew when it was rendered: call
 * it behind lockCalendar, or behind shareCalendar with `hold`. It is then decided, held, and decided again on what is
 * there by then, until nothing changes any more. A refusal says who holds what until when.
 */
export async function placeRun(ctx: Looking, wanted: Wanted, hold?: Hold): Promise<Outcome<Placed>> {
  const prepared = await prepare(ctx, wanted);
  if (!prepared.ok) return prepared;
  let placed = await decide(ctx, wanted, prepared.value);
  if (hold === undefined) return placed;
  for (let look = 1; placed.ok && look < MOST_LOOKS; look++) {
    await hold(placed.value);
    const again = await decide(ctx, wanted, prepared.value);
    if (!again.ok || sameRun(again.value, placed.value)) return again;
    placed = again;
  }
  return placed.ok ? refuse({ code: "changed-meanwhile", field: "kilnFrom", message: "Others book the same hours at this moment. Look at the offers again." }) : placed;
}

function sameRun(a: Placed, b: Placed): boolean {
  return JSON.stringify([a.run.bookings, a.run.lifts]) === JSON.stringify([b.run.bookings, b.run.lifts]);
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
  const { kilnFrom, steamFrom } = wanted;
  const { kiln, plan, planInput } = prepared;
  const near = await questionAround(ctx, wanted, prepared);
  const quick = near === undefined ? undefined : runAt(near, kiln.equipmentId, kilnFrom);
  // What is refused is looked at again with the whole calendar: it says who is in the way, and what would do instead.
  const run = quick?.ok === true ? quick : runAt(await wholeQuestion(ctx, wanted, prepared), kiln.equipmentId, kilnFrom);
  if (!run.ok) return run;
  const moved = steamMoved(run.value, steamFrom);
  if (moved) return refuse(steamTaken(moved, ctx.who.timeZone));
  return ok({ run: run.value, plan, planInput, kiln });
}

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
  const ground = await loadGround(tx, who, { from: now, ownerId: wanted.ownerId });
  const named = whoseTime(ground.equipment, kiln, wanted.kilnFrom, plan);
  return loadRunQuestion(tx, who, { ...asked(ctx, wanted, plan), equipment: ground.equipment, ground, named, withoutFiring: wanted.withoutFiring });
}

/** After a firing the unloading finds its place within days, or the whole calendar is looked at. */
const UNLOADED_WITHIN_HOURS = 96;

/** Only what lies around a run whose times are known but for the unloading; undefined where they are not. */
async function questionAround(ctx: Looking, wanted: Wanted, { ground, kiln, plan }: Prepared): Promise<RunQuestion | undefined> {
  const { kilnFrom, steamFrom, withoutFiring } = wanted;
  if (withoutFiring !== undefined || (steamFrom === undefined && plan.steamOut.hours > 0)) return undefined;
  const question = asked(ctx, wanted, plan);
  const dayBefore = kilnFrom.subtract({ hours: 24 });
  const from = Temporal.Instant.compare(dayBefore, ctx.now) < 0 ? ctx.now : dayBefore;
  const opened = kilnFrom.add({ minutes: Math.floor(plan.reservation.hours * 60) });
  const horizon = opened.add({ hours: UNLOADED_WITHIN_HOURS + Math.ceil(kiln.limits.turnaroundHours) });
  const calendar = await loadCalendarAround(ctx.tx, {
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
