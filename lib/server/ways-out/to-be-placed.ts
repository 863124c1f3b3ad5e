import type { Temporal } from "temporal-polyfill";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inputForKiln, type KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { toPlainDate } from "@/lib/server/clock";
import type { Reading } from "@/lib/server/query";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { isShared } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { meshOf } from "@/lib/server/rows/mesh";
import type { MovingAsk, MovingFiring } from "@/lib/server/rows/moving-runs";
import type { Ground } from "@/lib/server/runs/ground";
import { otherKilnRefusal } from "@/lib/server/runs/move-firing";
import { plannedOnce } from "@/lib/server/runs/plan-cache";
import { steamedOutAt } from "@/lib/server/runs/replace-bookings";
import type { PlacingGround } from "@/lib/server/ways-out/placing-ground";

/** A run that a place is looked for: its plan in its kiln, and what it asks of the calendar. */
export type ToBePlaced = {
  readonly plan: CastingPlan;
  readonly planInput: CastingInput;
  readonly kiln: KilnToPlan;
  readonly ground: Ground;
  /** Of a shared firing, whose steam-out stays where it is, and when that ends. */
  readonly shared: ReadonlyMap<string, Temporal.Instant> | null;
  readonly asked: {
    readonly plan: CastingPlan; readonly planByKiln: ReadonlyMap<string, CastingPlan>; readonly driedBeforeLoading: boolean; readonly notBefore: Temporal.Instant;
    readonly neededBy: Temporal.PlainDate | null; readonly perKiln: number; readonly ownerId: string; readonly steamedOutAt: Temporal.Instant | undefined;
  };
};

type Found = { readonly moving: MovingFiring | null; readonly ask: MovingAsk | null };

/** A run that moves on its own kiln keeps the plan it was booked with, a shared one always; otherwise the casting is planned as it is now, for the kiln it goes to. */
export async function toBePlaced(ctx: Reading, ground: PlacingGround, { kilnId }: { readonly kilnId: string }, { moving, ask }: Found): Promise<Outcome<ToBePlaced>> {
  const firing = moving?.firing;
  const casting = firing?.plan.casting ?? ask?.casting;
  const kiln = ground.kiln(kilnId);
  if (casting === undefined || kiln === undefined) return refuse({ code: "not-found", field: "kilnId", message: "There is no such kiln in this workshop." });
  const own = firing === undefined ? undefined : kilnOf(firing);
  const sharing = firing !== undefined && isShared(firing);
  if (sharing && own !== undefined && own.equipmentId !== kilnId) return otherKilnRefusal(kilnId, own.equipment.name);
  const keepsPlan = firing !== undefined && own?.equipmentId === kilnId;
  const input = keepsPlan ? readPlannedInput(firing.plan.inputs) : readCastingInput(casting.input);
  if (!input.ok) return input;
  const planInput = sharing ? input.value : inputForKiln(input.value, kiln);
  const plan = keepsPlan ? ok(storedPlan(firing.plan.outputs)) : plannedOnce(planInput, await meshOf(ctx.tx, planInput));
  if (!plan.ok) return plan;
  const ownerId = firing?.memberId ?? casting.memberId;
  return ok({
    plan: plan.value, planInput, kiln, ground: await ground.of(ownerId),
    shared: sharing ? (moving?.steamed ?? new Map<string, Temporal.Instant>()) : null,
    asked: {
      plan: plan.value, planByKiln: new Map([[kilnId, plan.value]]), notBefore: ctx.now, perKiln: 1, ownerId,
      driedBeforeLoading: !sharing && (input.value.mould?.driedBeforeLoading ?? false),
      neededBy: sharing || casting.neededBy === null ? null : toPlainDate(casting.neededBy),
      steamedOutAt: sharing || firing === undefined ? undefined : steamedOutAt(firing, ctx.now),
    },
  });
}
