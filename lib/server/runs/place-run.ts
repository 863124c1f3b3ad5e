import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { runAt } from "@/lib/domain/booking/run-at";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import type { CtxOf } from "@/lib/server/command";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { loadGround, type Ground } from "@/lib/server/runs/ground";
import { questionAlone, questionAround, reaches, wholeQuestion } from "@/lib/server/runs/place-question";
import { plannedOnce } from "@/lib/server/runs/plan-cache";
import type { Statements } from "@/lib/server/statements";
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
export type Looking = Pick<CtxOf<Statements>, "tx" | "now"> & { readonly who: Place };

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
  const alone = runAlone(ctx, wanted, prepared.value);
  if (hold === undefined) return decide(ctx, wanted, prepared.value, alone);
  const held = new Set(alone === undefined ? [] : await hold.take(placedAs(prepared.value, alone)));
  for (let look = 0; look < MOST_LOOKS; look++) {
    const placed = await decide(ctx, wanted, prepared.value, alone);
    if (!placed.ok || hold.partsOf(placed.value).every((part) => held.has(part))) return placed;
    for (const part of await hold.take(placed.value)) held.add(part);
  }
  return refuse({ code: "changed-meanwhile", field: "kilnFrom", message: "Others book the same hours at this moment. Look at the offers again." });
}

export type Prepared = { readonly ground: Ground; readonly kiln: Kiln; readonly plan: CastingPlan; readonly planInput: CastingInput };

async function prepare({ tx, who, now }: Looking, wanted: Wanted): Promise<Outcome<Prepared>> {
  const { kilnId, kilnFrom } = wanted;
  const past = inThePast({ who, now }, kilnFrom);
  if (past !== undefined) return past;
  const ground = await loadGround(tx, who, { from: now, ownerId: wanted.ownerId, kilnId });
  const [kiln] = await kilnsToPlan(tx, ground.equipment, ground.recordVersions);
  if (kiln === undefined) return refuse({ code: "not-found", field: "kilnId", message: "There is no such kiln in this workshop." });
  const planInput = inputForKiln(wanted.input, kiln);
  const planned = wanted.plan === undefined ? plannedOnce(planInput, await meshOf(tx, planInput)) : ok(wanted.plan);
  return planned.ok ? ok({ ground, kiln, plan: planned.value, planInput }) : planned;
}

/** A kiln starts in time to come. */
export function inThePast({ who, now }: Pick<Looking, "who" | "now">, kilnFrom: Temporal.Instant): Refusal | undefined {
  if (Temporal.Instant.compare(kilnFrom, now) > 0) return undefined;
  return refuse({ code: "in-the-past", field: "kilnFrom", value: kilnFrom.toString(), message: `The kiln cannot start at ${showTime(kilnFrom, who.timeZone)}: that is past. Choose a later time.` });
}

/** The run as it would be if nobody else had booked anything; undefined where that is not known before. */
function runAlone(ctx: Looking, wanted: Wanted, prepared: Prepared): RunProposal | undefined {
  const question = questionAlone(ctx, wanted, prepared);
  const run = question === undefined ? undefined : runAt(question, wanted.kilnId, wanted.kilnFrom);
  return run?.ok === true ? run.value : undefined;
}

async function decide(ctx: Looking, wanted: Wanted, prepared: Prepared, alone: RunProposal | undefined): Promise<Outcome<Placed>> {
  const around = alone === undefined ? undefined : await runAround(ctx, wanted, prepared, alone);
  if (around !== undefined) return ok(placedAs(prepared, around));
  // What is refused is looked at again with the whole calendar: it says who is in the way, and what would do instead.
  const question = await wholeQuestion(ctx, wanted, prepared);
  const agreed = wanted.steamFrom === undefined ? undefined : runAt({ ...question, steamFrom: wanted.steamFrom }, wanted.kilnId, wanted.kilnFrom);
  const run = agreed?.ok === true ? agreed : runAt(question, wanted.kilnId, wanted.kilnFrom);
  return run.ok ? asAgreed(ctx, wanted, prepared, run.value) : run;
}

/** Decided on what lies around the run as it would be alone. */
async function runAround(ctx: Looking, wanted: Wanted, prepared: Prepared, alone: RunProposal): Promise<RunProposal | undefined> {
  for (const horizon of reaches(ctx, wanted, prepared, alone)) {
    const { question, holds } = await questionAround(ctx, wanted, prepared, alone, horizon);
    const run = runAt(question, wanted.kilnId, wanted.kilnFrom);
    if (run.ok && holds(run.value)) return run.value;
    if (!run.ok && run.problems[0].code !== "past-horizon") return undefined;
  }
  return undefined;
}

function asAgreed({ who }: Looking, { steamFrom }: Wanted, prepared: Prepared, run: RunProposal): Outcome<Placed> {
  const moved = steamMoved(run, steamFrom);
  return moved ? refuse(steamTaken(moved, who.timeZone)) : ok(placedAs(prepared, run));
}

function placedAs({ kiln, plan, planInput }: Prepared, run: RunProposal): Placed {
  return { run, plan, planInput, kiln };
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
