import type { StageName } from "@/lib/domain/firing/casting-plan";

/**
 * Each stage has a pattern of its own, so that it can be told apart without colour: dots while water
 * leaves, strokes that rise and fall with the program, waves while the glass runs, level lines while
 * it holds, upright lines while it cools slowly, a lattice when it runs down, nothing once open.
 * Dry happens at the dark end of the ramp, so its dots are light. Drawn in a tile of 8 by 8.
 */
const MARKS: Readonly<Record<StageName, string>> = {
  Dry: "M2 2h.01M6 6h.01",
  Climb: "M-1 9L9-1M-1 1L1-1M7 9L9 7",
  Flow: "M0 4q2-4 4 0t4 0",
  Drop: "M-1-1L9 9M-1 7L1 9M7-1L9 1",
  Soak: "M0 2h8M0 6h8",
  "Slow cool": "M4 0v8",
  "Run-down": "M0 0L8 8M8 0L0 8",
  Open: "",
};

export const STAGE_NAMES: readonly StageName[] = ["Dry", "Climb", "Flow", "Drop", "Soak", "Slow cool", "Run-down", "Open"];

/** The id of a stage's pattern within one drawing; `prefix` comes from useId. */
export function stagePatternId(prefix: string, stage: StageName): string {
  return `${prefix}-${stage.replaceAll(" ", "-").toLowerCase()}`;
}

/** Goes into the `<defs>` of a drawing. */
export function StagePatterns({ prefix, stages = STAGE_NAMES }: { readonly prefix: string; readonly stages?: readonly StageName[] }) {
  return stages.map((stage) => (
    <pattern key={stage} id={stagePatternId(prefix, stage)} width="8" height="8" patternUnits="userSpaceOnUse">
      <path d={MARKS[stage]} fill="none" stroke={stage === "Dry" ? "#f4f1ea" : "#1b1916"} strokeOpacity="0.5" strokeWidth={stage === "Dry" ? 1.8 : 1} strokeLinecap="round" />
    </pattern>
  ));
}
