import { kilnFit } from "@/lib/domain/booking/fits";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import type { KilnHours } from "@/lib/domain/settling/clash/season-clock";
import type { Equipment } from "@/lib/domain/booking/equipment";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inputForKiln, type KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { Tx } from "@/lib/server/db";
import { castingOf } from "@/lib/server/rows/casting";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { meshOf } from "@/lib/server/rows/mesh";
import { plannedOnce } from "@/lib/server/runs/plan-cache";

type Piece = Parameters<typeof castingOf>[0] & { readonly memberId: string };

/** The kilns, and who may have castings fired in them. */
export type KilnTakers = {
  readonly tx: Tx;
  readonly kilns: readonly KilnToPlan[];
  readonly isShown: (memberId: string, kiln: KilnToPlan) => boolean;
  /** The plan for a large ideal kiln; says what the load itself is like. */
  readonly general: (piece: Piece) => Promise<CastingPlan | undefined>;
};

export async function kilnTakers(tx: Tx, equipment: readonly Equipment[]): Promise<KilnTakers> {
  const shown = new Set((await tx.induction.findMany({ select: { memberId: true, equipmentId: true } })).map((one) => `${one.memberId} ${one.equipmentId}`));
  return {
    tx,
    kilns: await kilnsToPlan(tx, equipment),
    isShown: (memberId, kiln) => kiln.needsInduction !== true || shown.has(`${memberId} ${kiln.equipmentId}`),
    general: async (piece) => {
      const { kiln: _ownKiln, ...input } = castingOf(piece).input;
      const plan = plannedOnce(input, await meshOf(tx, input));
      return plan.ok ? plan.value : undefined;
    },
  };
}

/** Hours in each kiln that takes a casting. */
export async function hoursInKilns(takers: KilnTakers, piece: Piece): Promise<Record<string, KilnHours>> {
  const { input } = castingOf(piece);
  const general = await takers.general(piece);
  const mesh = await meshOf(takers.tx, input);
  const hours: Record<string, KilnHours> = {};
  for (const kiln of takers.kilns) {
    if (general === undefined || kilnFit(general, kiln).length > 0 || !takers.isShown(piece.memberId, kiln)) continue;
    const plan = plannedOnce(inputForKiln(input, kiln), mesh);
    if (plan.ok && kilnFit(plan.value, kiln).length === 0) hours[kiln.equipmentId] = kilnHours(plan.value);
    // Planning takes a while; requests of others are not kept waiting for all of it.
    await new Promise((resolve) => setImmediate(resolve));
  }
  return hours;
}

export function kilnHours({ reservation, firing }: CastingPlan): KilnHours {
  return { cools: reservation.hours, heats: heatingHours(firing.stages) };
}

/** Whole days from the closing of the door until it may be unloaded. */
export function daysOf(hours: Readonly<Record<string, KilnHours>>): Record<string, number> {
  return Object.fromEntries(Object.entries(hours).map(([kilnId, { cools }]) => [kilnId, Math.ceil(cools / 24)]));
}
