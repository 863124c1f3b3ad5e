import { Temporal } from "temporal-polyfill";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { findRuns } from "@/lib/domain/booking/find-time";
import type { BusySpan } from "@/lib/domain/booking/run-question";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { Tx } from "@/lib/server/db";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnPlans } from "@/lib/server/runs/kiln-plans";
import { plansAndRefusals } from "@/lib/server/runs/run-offers";
import { loadRunQuestion } from "@/lib/server/runs/run-question";
import type { Place } from "@/lib/server/who";

export type AskedRun = {
  readonly input: CastingInput;
  readonly ownerId: string;
  /** Null: any kiln that fits. */
  readonly kilnId: string | null;
  readonly notBefore: Temporal.Instant;
  readonly neededBy: Temporal.PlainDate | null;
  /** Time that is not free for this ask. */
  readonly turnedDown: readonly BusySpan[];
  /** True: as if nothing stood on the calendar. */
  readonly whateverIsBooked?: boolean;
};

/** The run that is ready soonest for an ask, on the kiln it names or on any; or why there is none. */
export async function runForAsk(tx: Tx, place: Place, asked: AskedRun): Promise<Outcome<RunProposal>> {
  const { input, ownerId, kilnId, notBefore, neededBy, turnedDown, whateverIsBooked = false } = asked;
  const all = await loadEquipment(tx);
  const equipment = all.filter((piece) => piece.kind !== "kiln" || kilnId === null || piece.equipmentId === kilnId);
  const planned = kilnPlans(input, await kilnsToPlan(tx, equipment), await meshOf(tx, input));
  if (!planned.ok) return planned;
  const { plans, refused } = plansAndRefusals(planned.value.byKiln);
  const question = await loadRunQuestion(tx, place, {
    plan: planned.value.general,
    planByKiln: plans,
    equipment: equipment.filter((piece) => piece.kind !== "kiln" || plans.has(piece.equipmentId)),
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    notBefore,
    neededBy,
    perKiln: 1,
    ownerId,
  });
  const found = findRuns(whateverIsBooked ? { ...question, busy: [], calendar: undefined } : { ...question, busy: [...question.busy, ...turnedDown] });
  const [soonest] = found.kilns.flatMap(({ runs }) => runs).toSorted((a, b) => Temporal.Instant.compare(a.readyAt, b.readyAt) || (a.kilnId < b.kilnId ? -1 : 1));
  if (soonest !== undefined) return ok(soonest);
  const why = [...found.kilns.map(({ whyNot }) => whyNot).filter((text) => text !== null), ...refused.values()];
  return refuse({ code: "kiln-does-not-fit", field: kilnId === null ? "castingId" : "kilnId", message: found.refusals[0] ?? why[0] ?? "No kiln here takes this casting." });
}

