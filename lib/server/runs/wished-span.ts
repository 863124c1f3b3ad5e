import { Temporal } from "temporal-polyfill";
import { findRuns } from "@/lib/domain/booking/find-time";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Ctx } from "@/lib/server/command";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { inputForKiln } from "@/lib/domain/firing/for-kiln";
import { plannedOnce } from "@/lib/server/runs/plan-cache";
import { loadRunQuestion } from "@/lib/server/runs/run-question";

export type WishedSpan = { readonly plan: CastingPlan; readonly planInput: CastingInput; readonly from: Temporal.Instant; readonly to: Temporal.Instant };

/**
 * What a wish for a kiln from a day on would hold, if nothing else stood on the calendar: from its
 * first possible loading in staffed hours until the kiln is free again. Refused when the kiln could
 * not take the load at all.
 */
export async function wishedSpan({ tx, who, now }: Ctx, input: CastingInput, ownerId: string, kilnId: string, fromDay: Temporal.PlainDate): Promise<Outcome<WishedSpan>> {
  const equipment = await loadEquipment(tx);
  const kiln = (await kilnsToPlan(tx, equipment)).find((one) => one.equipmentId === kilnId);
  if (kiln === undefined) return refuse({ code: "not-found", field: "kilnId", message: "There is no such kiln in this workshop." });
  const planInput = inputForKiln(input, kiln);
  const plan = plannedOnce(planInput, await meshOf(tx, input));
  if (!plan.ok) return plan;
  const dayStart = fromDay.toZonedDateTime(who.timeZone).toInstant();
  const question = await loadRunQuestion(tx, who, {
    plan: plan.value,
    planByKiln: new Map([[kilnId, plan.value]]),
    equipment,
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    notBefore: Temporal.Instant.compare(dayStart, now) < 0 ? now : dayStart,
    neededBy: null,
    perKiln: 1,
    ownerId,
    // The mould is ready by the day that is wished for; the steam-out finds its place when it is booked.
    steamedOutAt: dayStart.subtract({ hours: 24 * 14 }),
  });
  const found = findRuns({ ...question, busy: [], calendar: undefined });
  const answer = found.kilns.find((one) => one.kilnId === kilnId);
  const run = answer?.runs[0];
  if (run === undefined) {
    return refuse({ code: "kiln-does-not-fit", field: "kilnId", message: answer?.whyNot ?? `${kiln.name} cannot take this casting.` });
  }
  return ok({ plan: plan.value, planInput, from: run.kilnFrom, to: run.kilnTo });
}
