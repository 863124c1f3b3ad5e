import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { runAt } from "@/lib/domain/booking/run-at";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import type { Ctx } from "@/lib/server/command";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
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

/**
 * Whether this run still stands, on what the calendar holds now: call it behind lockCalendar, never
 * on what a page knew when it was rendered. A refusal says who holds what until when.
 */
export async function placeRun({ tx, who, now }: Pick<Ctx, "tx" | "who" | "now">, wanted: Wanted): Promise<Outcome<Placed>> {
  const { kilnId, kilnFrom, steamFrom } = wanted;
  if (Temporal.Instant.compare(kilnFrom, now) <= 0) {
    return refuse({
      code: "in-the-past",
      field: "kilnFrom",
      value: kilnFrom.toString(),
      message: `The kiln cannot start at ${showTime(kilnFrom, who.timeZone)}: that is past. Choose a later time.`,
    });
  }
  const equipment = await loadEquipment(tx);
  const kiln = (await kilnsToPlan(tx, equipment)).find((one) => one.equipmentId === kilnId);
  if (kiln === undefined) return refuse({ code: "not-found", field: "kilnId", message: "There is no such kiln in this workshop." });
  const planInput = inputForKiln(wanted.input, kiln);
  const planned = wanted.plan === undefined ? plannedOnce(planInput, await meshOf(tx, planInput)) : ok(wanted.plan);
  if (!planned.ok) return planned;
  const plan = planned.value;
  const question = await loadRunQuestion(tx, who, {
    plan,
    planByKiln: new Map([[kilnId, plan]]),
    equipment,
    driedBeforeLoading: wanted.input.mould?.driedBeforeLoading ?? false,
    // Nothing of the run starts before its steam-out, so the search finds that one and no earlier one.
    notBefore: steamFrom !== undefined && Temporal.Instant.compare(steamFrom, now) > 0 ? steamFrom : now,
    neededBy: wanted.neededBy,
    perKiln: 1,
    ownerId: wanted.ownerId,
    named: whoseTime(equipment, kiln, kilnFrom, plan),
    withoutFiring: wanted.withoutFiring,
    steamedOutAt: wanted.steamedOutAt,
  });
  const run = runAt(question, kilnId, kilnFrom);
  if (!run.ok) return run;
  const moved = steamMoved(run.value, steamFrom);
  if (moved) return refuse(steamTaken(moved, who.timeZone));
  return ok({ run: run.value, plan, planInput, kiln });
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
