import type { Temporal } from "temporal-polyfill";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { planFiring } from "@/lib/domain/firing/plan";
import { firingPower } from "@/lib/domain/firing/power";
import { splitCost, type CostShare } from "@/lib/domain/sharing/split-cost";
import type { Sharer } from "@/lib/domain/sharing/sharer";
import { costFrom } from "@/lib/domain/tariff/firing-cost";
import type { Tariff } from "@/lib/domain/tariff/tariff";

/** What a shared firing costs and who pays what; in watt-hours while the workshop has no tariff. */
export type SharedCost = {
  readonly currency: string | null;
  readonly total: number;
  /** What all of them would cost apart, at the same time in the same kiln. */
  readonly apart: number;
  /** Null where the firing costs more than all of them apart. */
  readonly shares: readonly CostShare[] | null;
};

/** By today's tariff from the hour the door closes. */
export function sharedCost(sharers: readonly Sharer[], plan: CastingPlan, tariff: Tariff | null, kilnFrom: Temporal.Instant, timeZone: string): SharedCost {
  const costOf = (one: CastingPlan, input: CastingInput | undefined): number =>
    tariff === null ? Math.round(one.energy.kWh * 1000) : costFrom(firingPower(one, input?.kiln), tariff, kilnFrom, timeZone).cost;
  const alone = sharers.flatMap(({ castingId, input, mesh }) => {
    const own = planFiring(input, mesh);
    return own.ok ? [{ id: castingId, alone: costOf(own.value, input) }] : [];
  });
  const total = costOf(plan, sharers[0]?.input);
  return { currency: tariff?.currency ?? null, total, apart: alone.reduce((sum, one) => sum + one.alone, 0), shares: splitCost(total, alone) ?? null };
}
