import type { CastingPlan, StageName } from "@/lib/domain/firing/casting-plan";

export type StageHours = { readonly stage: StageName; readonly hours: number; readonly why: string };

/** Hours by stage, in the order of the firing, with the reason of each stage's longest segment. */
export function stageHours({ firing }: CastingPlan): readonly StageHours[] {
  const names = [...new Set(firing.stages.map(({ stage }) => stage))];
  return names.map((stage) => {
    const segments = firing.stages.filter((one) => one.stage === stage);
    const longest = segments.reduce((most, one) => (one.hours > most.hours ? one : most));
    return { stage, hours: segments.reduce((sum, one) => sum + one.hours, 0), why: longest.why };
  });
}

/** The stage that takes most of the time, and its own reason. */
export function whyThatLong(plan: CastingPlan): string {
  const all = stageHours(plan);
  const [first] = all;
  if (first === undefined) return "";
  const longest = all.reduce((most, one) => (one.hours > most.hours ? one : most), first);
  const share = Math.round((longest.hours / plan.firing.hours) * 100);
  return `${longest.stage} takes ${share} % of the firing. ${longest.why}`;
}
