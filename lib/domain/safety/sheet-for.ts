import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { detailOf } from "./sheet-details";
import { TEMPLATE, type CheckItem, type CheckPhase } from "./template";

/** One line of the check sheet of one firing: the template's item, levelled and numbered for this plan. */
export type SheetItem = CheckItem & {
  /** The firing's own numbers beside the item. */
  readonly detail?: string;
  /** Set when no tick and no override can let this firing start, and why. */
  readonly forbids?: string;
};

/** A plaster-silica mould may be asked to stand more than this only with a reason. Common practice. */
export const MOULD_WARN_C = 850;
/** Above this plaster breaks down; a glass maker's technical note on investments gives 880 to 900 °C. */
export const MOULD_REFUSE_C = 880;

const MOULD_PHASES: readonly CheckPhase[] = ["wax-and-mould", "steam-out", "divest"];
const MOULD_CODES: readonly string[] = ["L4", "L6", "L9"];

/**
 * The check sheet for a plan. Lead items come only with lead glass, mould items only with a mould; L7,
 * the lift, blocks when any lift of the plan is red; T1 forbids a plaster mould above 880 °C.
 */
export function sheetFor(plan: CastingPlan, facts: { readonly leadGlass: boolean }): readonly SheetItem[] {
  const bare = !(plan.mould.wetKg > 0);
  return TEMPLATE.filter((item) => {
    if (item.code === "X2") return facts.leadGlass;
    return !(bare && (MOULD_PHASES.includes(item.phase) || MOULD_CODES.includes(item.code)));
  }).map((item) => sheetItem(item, plan));
}

function sheetItem(item: CheckItem, plan: CastingPlan): SheetItem {
  const detail = detailOf(item.code, plan);
  const forbids = item.code === "T1" ? tooHotForPlaster(plan) : undefined;
  return {
    ...item,
    level: item.code === "L7" && plan.lifts.some((lift) => lift.flag === "red") ? "block" : item.level,
    ...(detail === undefined ? {} : { detail }),
    ...(forbids === undefined ? {} : { forbids }),
  };
}

function tooHotForPlaster(plan: CastingPlan): string | undefined {
  if (!(plan.mould.plasterKg > 0) || plan.firing.peakC <= MOULD_REFUSE_C) return undefined;
  return `The plan peaks at ${Math.round(plan.firing.peakC)} °C; a plaster mould may be fired to ${MOULD_REFUSE_C} °C.`;
}
