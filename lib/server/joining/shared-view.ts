import type { Temporal } from "temporal-polyfill";
import type { CastingPlan, SharedCasting, Stage } from "@/lib/domain/firing/casting-plan";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { shelfAlone } from "@/lib/domain/sharing/may-share";
import type { ShelfLimits } from "@/lib/domain/sharing/shelf-for";
import type { Tariff } from "@/lib/domain/tariff/tariff";
import type { OwnedSharer } from "@/lib/server/joining/load-sharers";
import { sharedCost, type SharedCost } from "@/lib/server/joining/shared-cost";

/** One mould on the shelf, for the drawing from above. */
export type ShelfPlace = SharedCasting["place"] & { readonly castingId: string; readonly title: string };

/** A firing at one time of its life: its program, when it holds the kiln, and what stands where. */
export type SharedMoment = {
  readonly stages: readonly Stage[];
  readonly reservationHours: number;
  readonly kWh: number;
  /** ISO instants. */
  readonly kilnFrom: string;
  readonly kilnTo: string;
  readonly loadKg: number;
  readonly places: readonly ShelfPlace[];
  readonly cost: SharedCost;
};

/** One casting of a shared firing and what sharing means for it. */
export type SharedRow = {
  readonly castingId: string;
  readonly title: string;
  readonly owner: string;
  readonly mine: boolean;
  readonly glassName: string;
  readonly shelfKg: number;
  readonly aloneHours: number;
  readonly stress: SharedCasting["stress"];
  /** Smallest coins, or watt-hours without a tariff. */
  readonly alone: number;
  readonly pays: number | null;
};

export type SharedView = {
  readonly kilnName: string;
  readonly shelf: ShelfLimits;
  readonly rows: readonly SharedRow[];
  readonly after: SharedMoment;
  /** The firing as it stands without the casting that wants to join. */
  readonly before: SharedMoment | null;
  readonly warnings: readonly string[];
};

export type MomentWish = { readonly plan: CastingPlan; readonly sharers: readonly OwnedSharer[]; readonly kiln: KilnToPlan; readonly tariff: Tariff | null; readonly timeZone: string; readonly kilnFrom: Temporal.Instant; readonly kilnTo: Temporal.Instant };

export function momentOf({ plan, sharers, kiln, tariff, timeZone, kilnFrom, kilnTo }: MomentWish): SharedMoment {
  return {
    stages: plan.firing.stages,
    reservationHours: plan.reservation.hours,
    kWh: plan.energy.kWh,
    kilnFrom: kilnFrom.toString(),
    kilnTo: kilnTo.toString(),
    loadKg: plan.shelfKg,
    places: plan.castings === undefined ? lonePlace(sharers[0], kiln) : inOrder(plan.castings, sharers),
    cost: sharedCost(sharers, plan, tariff, kilnFrom, timeZone),
  };
}

/** In the order in which they joined, as everywhere. */
function inOrder(castings: readonly SharedCasting[], sharers: readonly OwnedSharer[]): readonly ShelfPlace[] {
  const order = sharers.map(({ castingId }) => castingId);
  return castings.map(({ castingId, title, place }) => ({ ...place, castingId, title })).toSorted((a, b) => order.indexOf(a.castingId) - order.indexOf(b.castingId));
}

function lonePlace(sharer: OwnedSharer | undefined, kiln: KilnToPlan): readonly ShelfPlace[] {
  const alone = sharer === undefined ? undefined : shelfAlone(sharer, kiln.limits);
  const [place] = alone?.places ?? [];
  if (sharer === undefined || alone === undefined || place === undefined) return [];
  return [{ xMm: place.xMm, yMm: place.yMm, widthMm: place.widthMm, depthMm: place.depthMm, heightMm: alone.heightMm, round: place.round, castingId: sharer.castingId, title: sharer.title }];
}

/** Each casting in the order they joined. */
export function rowsOf(plan: CastingPlan, sharers: readonly OwnedSharer[], cost: SharedCost, memberId: string): readonly SharedRow[] {
  return sharers.flatMap((sharer): SharedRow[] => {
    const own = plan.castings?.find(({ castingId }) => castingId === sharer.castingId);
    if (own === undefined) return [];
    const share = cost.shares?.find(({ id }) => id === sharer.castingId);
    return [{
      castingId: sharer.castingId, title: sharer.title, owner: sharer.owner, mine: sharer.memberId === memberId,
      glassName: own.glassName, shelfKg: own.shelfKg, aloneHours: own.alone.reservationHours, stress: own.stress,
      alone: share?.alone ?? 0, pays: share?.pays ?? null,
    }];
  });
}
