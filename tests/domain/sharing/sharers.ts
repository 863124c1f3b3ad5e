import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { joinPlans } from "@/lib/domain/sharing/join-plans";
import type { Sharer } from "@/lib/domain/sharing/sharer";
import type { ShelfLimits } from "@/lib/domain/sharing/shelf-for";
import { BRICK, KILN } from "../firing/casting-builder";

export const SHELF: ShelfLimits = { insideMm: [900, 700, 800], wallClearanceMm: 40, headroomMm: 50, shelfLoadKg: 300 };
export const WIDE_KILN = { ...KILN, insideMm: SHELF.insideMm };

export function sharer(castingId: string, over: Partial<CastingInput> = {}): Sharer {
  return { castingId, title: `Casting ${castingId}`, input: { ...BRICK, kiln: WIDE_KILN, ...over } };
}

export const ball = (diameterMm: number): Partial<CastingInput> => ({ piece: { shape: "ball", sizeMm: [diameterMm] } });

export function joined(sharers: readonly Sharer[], shelf: ShelfLimits = SHELF): CastingPlan {
  const outcome = joinPlans(sharers, shelf);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
}

export function refusals(sharers: readonly Sharer[], shelf: ShelfLimits = SHELF) {
  const outcome = joinPlans(sharers, shelf);
  return outcome.ok ? [] : outcome.problems;
}
