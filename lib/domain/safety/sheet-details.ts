import type { CastingPlan, Lift, SharedCasting } from "@/lib/domain/firing/casting-plan";

/** Free water a mould may hold when it is loaded, as a share of its dry mass. Common practice, no source. */
export const FREE_WATER_SHARE = 0.05;
/** Of the wax that was put in, what must have been weighed coming out. Common practice, no source. */
export const WAX_OUT_SHARE = 0.98;

/** The numbers of this firing that belong beside an item, in one sentence; nothing where the item has none. */
export function detailOf(code: string, plan: CastingPlan): string | undefined {
  const { mould, glass } = plan;
  const shared = plan.castings === undefined ? undefined : sharedDetail(code, plan.castings);
  if (shared !== undefined) return shared;
  switch (code) {
    case "W5":
      return `By the plan: ${kg(mould.plasterKg)} plaster, ${kg(mould.silicaKg)} silica, ${kg(mould.waterKg)} water; mould ${kg(mould.wetKg)} wet; ${kg(glass.chargeKg)} of ${glass.name}.`;
    case "S4":
      return `Wax in by the plan: ${kg(plan.waxKg)}; at least ${kg(plan.waxKg * WAX_OUT_SHARE, 2)} must come out.`;
    case "L4":
      return `Dry by the plan: ${kg(mould.dryKg)}; ready at ${kg(mould.dryKg * (1 + FREE_WATER_SHARE))} or less.`;
    case "L5":
      return `The shelf carries up to ${kg(plan.shelfKg)}.`;
    case "L6":
      return `Charge ${kg(glass.chargeKg)}; pot ${plan.pot.litres.toFixed(1)} L.`;
    case "L7":
      return liftSentence(plan.lifts, "load");
    case "L8":
      return `Heaviest lift ${kg(Math.max(0, ...plan.lifts.map((lift) => lift.kg)))}, and the trolley's own mass.`;
    case "T1":
      return `Peak ${Math.round(plan.firing.peakC)} °C, ${Math.round(plan.firing.hours)} hours in all.`;
    case "C2":
      return openSentence(plan);
    case "C3":
      return liftSentence(plan.lifts, "unload");
    default:
      return undefined;
  }
}

/** Where several castings share the firing, each mould has numbers of its own. */
function sharedDetail(code: string, castings: readonly SharedCasting[]): string | undefined {
  const each = (of: (one: SharedCasting) => string): string => `${castings.map((one) => `${one.title}: ${of(one)}`).join("; ")}.`;
  switch (code) {
    case "W5":
      return each(({ mould, chargeKg, glassName }) => `mould ${kg(mould.wetKg)} wet, ${kg(chargeKg)} of ${glassName}`);
    case "S4":
      return each(({ waxKg }) => `wax in ${kg(waxKg)}, at least ${kg(waxKg * WAX_OUT_SHARE, 2)} must come out`);
    case "L4":
      return each(({ mould }) => `dry ${kg(mould.dryKg)}, ready at ${kg(mould.dryKg * (1 + FREE_WATER_SHARE))} or less`);
    case "L6":
      return each(({ chargeKg, potL }) => `charge ${kg(chargeKg)}, pot ${potL.toFixed(1)} L`);
    default:
      return undefined;
  }
}

function liftSentence(lifts: readonly Lift[], what: Lift["what"]): string | undefined {
  const sentences = lifts.filter((one) => one.what === what).map(oneLift);
  return sentences.length === 0 ? undefined : sentences.join(" Then ");
}

function oneLift(lift: Lift): string {
  const people = lift.hands === 1 ? "1 person" : `${lift.hands} people`;
  return `${kg(lift.kg)}: ${people}${lift.trolley ? " and a trolley" : ""}. ${lift.why}`;
}

function openSentence(plan: CastingPlan): string | undefined {
  const open = plan.firing.stages.filter((stage) => stage.stage === "Open");
  if (open.length === 0) return undefined;
  const hours = open.reduce((sum, stage) => sum + stage.hours, 0);
  return `By the plan ${hours.toFixed(1)} hours closed after the program ends.`;
}

function kg(mass: number, decimals = 1): string {
  return `${mass.toFixed(decimals)} kg`;
}
