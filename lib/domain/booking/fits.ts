import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Kiln, Steamer, Trolley } from "@/lib/domain/booking/equipment";

/** What is asked of each piece of equipment by one load. Lengths mm, masses kg, temperatures °C. */
export type TrolleyDuty = { readonly kg: number; readonly what: string };

/**
 * Share of the plate's rating that is counted on, by floor. Common practice, no source: full rating
 * on a level floor, 0.8 on an uneven one, 0.5 over a threshold or a ramp steeper than 2 %.
 */
export const TROLLEY_DERATE = { level: 1, uneven: 0.8, threshold: 0.5 } as const;
export type Floor = keyof typeof TROLLEY_DERATE;

/** Reasons why the load does not fit the kiln; none means it fits. The load may be turned by a quarter in plan. */
export function kilnFit(plan: CastingPlan, kiln: Kiln): readonly string[] {
  const { insideMm, headroomMm, shelfLoadKg, maxC } = kiln.limits;
  const height = insideMm[2];
  const need = needed(plan, kiln);
  const reasons: string[] = [];
  if (!planFits(need, insideMm)) {
    reasons.push(
      `${kiln.name} is ${mm(insideMm[0])} by ${mm(insideMm[1])} mm inside; the load needs ${mm(need.width)} by ${mm(need.depth)} mm with ${mm(kiln.limits.wallClearanceMm)} mm kept free on each side.`,
    );
  }
  if (!(need.height <= height)) {
    reasons.push(`${kiln.name} is ${mm(height)} mm tall inside; the load needs ${mm(need.height)} mm with ${mm(headroomMm)} mm headroom.`);
  }
  if (!(plan.shelfKg <= shelfLoadKg)) {
    reasons.push(`The shelf of ${kiln.name} carries ${kg(shelfLoadKg)} kg; the load is ${kg(plan.shelfKg)} kg.`);
  }
  if (!(plan.firing.peakC <= maxC)) {
    reasons.push(`${kiln.name} reaches ${mm(maxC)} °C; the firing needs ${mm(plan.firing.peakC)} °C.`);
  }
  return reasons;
}

type Need = { readonly width: number; readonly depth: number; readonly height: number };

function needed(plan: CastingPlan, kiln: Kiln): Need {
  const clearance = 2 * kiln.limits.wallClearanceMm;
  return {
    width: plan.loadMm.width + clearance,
    depth: plan.loadMm.depth + clearance,
    height: plan.loadMm.height + kiln.limits.headroomMm,
  };
}

function planFits(need: Need, insideMm: readonly [number, number, number]): boolean {
  const [width, depth] = insideMm;
  return (need.width <= width && need.depth <= depth) || (need.depth <= width && need.width <= depth);
}

/**
 * One sentence for a load that fits no kiln, naming for each limit that every kiln fails the best
 * kiln there is, or, when different kilns fail for different reasons, each kiln's own reasons.
 */
export function noKilnFits(plan: CastingPlan, kilns: readonly Kiln[]): string {
  if (kilns.length === 0) return "The workshop has no kiln yet.";
  const common = [tooLow(plan, kilns), tooNarrow(plan, kilns), tooWeak(plan, kilns), tooCool(plan, kilns)].filter((text) => text !== null);
  if (common.length > 0) return sentence(common.join("; "));
  return `No kiln takes this load. ${kilns.flatMap((kiln) => kilnFit(plan, kiln)).join(" ")}`;
}

function tooLow(plan: CastingPlan, kilns: readonly Kiln[]): string | null {
  if (kilns.some((kiln) => needed(plan, kiln).height <= kiln.limits.insideMm[2])) return null;
  const least = Math.min(...kilns.map((kiln) => needed(plan, kiln).height));
  const tallest = Math.max(...kilns.map((kiln) => kiln.limits.insideMm[2]));
  return `no kiln is ${mm(least)} mm tall inside; the tallest is ${mm(tallest)} mm`;
}

function tooNarrow(plan: CastingPlan, kilns: readonly Kiln[]): string | null {
  if (kilns.some((kiln) => planFits(needed(plan, kiln), kiln.limits.insideMm))) return null;
  const widest = kilns.reduce((best, kiln) => (floorArea(kiln) > floorArea(best) ? kiln : best));
  const need = needed(plan, widest);
  return `no kiln is ${mm(need.width)} by ${mm(need.depth)} mm inside; the widest is ${mm(widest.limits.insideMm[0])} by ${mm(widest.limits.insideMm[1])} mm`;
}

function tooWeak(plan: CastingPlan, kilns: readonly Kiln[]): string | null {
  if (kilns.some((kiln) => plan.shelfKg <= kiln.limits.shelfLoadKg)) return null;
  const strongest = Math.max(...kilns.map((kiln) => kiln.limits.shelfLoadKg));
  return `no kiln shelf carries ${kg(plan.shelfKg)} kg; the strongest carries ${kg(strongest)} kg`;
}

function tooCool(plan: CastingPlan, kilns: readonly Kiln[]): string | null {
  if (kilns.some((kiln) => plan.firing.peakC <= kiln.limits.maxC)) return null;
  const hottest = Math.max(...kilns.map((kiln) => kiln.limits.maxC));
  return `no kiln reaches ${mm(plan.firing.peakC)} °C; the hottest reaches ${mm(hottest)} °C`;
}

function floorArea(kiln: Kiln): number {
  return kiln.limits.insideMm[0] * kiln.limits.insideMm[1];
}

/** Reasons why the invested mould does not fit the steamer. A mould may be turned by a quarter but stays upright. */
export function steamerFit(plan: CastingPlan, steamer: Steamer): readonly string[] {
  const [width, depth, height] = plan.mould.outsideMm;
  const inside = steamer.limits.insideMm;
  const reasons: string[] = [];
  if (!planFits({ width, depth, height }, inside)) {
    reasons.push(`${steamer.name} is ${mm(inside[0])} by ${mm(inside[1])} mm inside; the mould is ${mm(width)} by ${mm(depth)} mm.`);
  }
  if (!(height <= inside[2])) reasons.push(`${steamer.name} is ${mm(inside[2])} mm tall inside; the mould is ${mm(height)} mm.`);
  const invested = plan.mould.wetKg + plan.waxKg;
  if (!(invested <= steamer.limits.maxMouldKg)) {
    reasons.push(`${steamer.name} takes ${kg(steamer.limits.maxMouldKg)} kg; the mould with its wax is ${kg(invested)} kg.`);
  }
  return reasons;
}

/** Reasons why a trolley may not carry a mass. The trolley's own mass counts, since plates rate the whole. */
export function trolleyFit(duty: TrolleyDuty, trolley: Trolley, floor: Floor = "level"): readonly string[] {
  const carries = trolley.limits.ratedKg * TROLLEY_DERATE[floor];
  const gross = duty.kg + trolley.limits.ownKg;
  if (gross <= carries) return [];
  const derated = floor === "level" ? "" : ` (${kg(trolley.limits.ratedKg)} kg on its plate, less for the floor)`;
  return [`${trolley.name} is rated ${kg(carries)} kg${derated}; ${duty.what} of ${kg(duty.kg)} kg and the trolley's own ${kg(trolley.limits.ownKg)} kg make ${kg(gross)} kg.`];
}

/** Whole millimetres or degrees. Rounding never turns a load that just fails into one that reads as fitting. */
function mm(value: number): string {
  return String(Math.ceil(value - 1e-9));
}

function kg(value: number): string {
  return (Math.ceil(value * 10 - 1e-9) / 10).toString();
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
