import { useId } from "react";
import type { StageName } from "@/lib/domain/firing/casting-plan";
import { rampColour } from "./temperature-ramp";
import { stagePatternId, StagePatterns } from "./stage-pattern";
import styles from "./badge.module.css";

type StageTagProps = {
  readonly stage: StageName;
  /** The temperature the swatch is coloured by, °C; without it the swatch shows the pattern alone. */
  readonly atC?: number | undefined;
};

/** The name of a stage with its pattern, on the colour of its temperature. */
export function StageTag({ stage, atC }: StageTagProps) {
  return (
    <span className={styles["tag"]}>
      <StageSwatch stage={stage} atC={atC} />
      {stage}
    </span>
  );
}

export function StageSwatch({ stage, atC }: StageTagProps) {
  const prefix = useId();
  const fill = atC === undefined ? "oklch(0.7 0.008 80)" : rampColour(atC);
  return (
    <svg className={styles["swatch"]} viewBox="0 0 24 18" aria-hidden="true" focusable="false">
      <defs>
        <StagePatterns prefix={prefix} stages={[stage]} />
      </defs>
      <rect x="0.5" y="0.5" width="23" height="17" rx="1" fill={fill} stroke="var(--rule-strong)" />
      <rect x="1" y="1" width="22" height="16" fill={`url(#${stagePatternId(prefix, stage)})`} />
    </svg>
  );
}
