import { useId } from "react";
import { classNames } from "./class-names";
import { RampGradient } from "./ramp-gradient";
import { STAGE_NAMES } from "./stage-pattern";
import { StageTag } from "./stage-tag";
import { RAMP_FROM_C, RAMP_TO_C } from "./temperature-ramp";
import { TroubleSign } from "./wall-bar";
import styles from "./kiln-wall.module.css";

/** What colours, patterns and edges mean on the kiln wall. */
export function WallLegend() {
  const id = useId();
  return (
    <figcaption className={styles["legend"]}>
      <RampScale id={`${id}-ramp`} />
      <div className={styles["legendRow"]}>
        {STAGE_NAMES.map((stage) => (
          <StageTag key={stage} stage={stage} />
        ))}
      </div>
      <div className={styles["legendRow"]}>
        <span className={styles["key"]}>
          <svg viewBox="0 0 24 18" aria-hidden="true">
            <rect x="0.5" y="0.5" width="23" height="17" className={styles["barEdge"]} />
            <rect x="0" y="0" width="5" height="18" className={styles["mine"]} />
          </svg>
          yours
        </span>
        <span className={classNames(styles["key"], styles["held"])}>
          <svg viewBox="0 0 24 18" aria-hidden="true">
            <rect x="0.5" y="0.5" width="23" height="17" className={styles["barEdge"]} />
          </svg>
          ? held for a while
        </span>
        <span className={styles["key"]}>▸ firing now</span>
        <span className={styles["key"]}>✓ done</span>
        <span className={styles["key"]}>
          <svg viewBox="0 0 24 18" aria-hidden="true">
            <rect x="1" y="1" width="22" height="16" className={styles["askEdge"]} />
          </svg>
          ask, nothing held yet
        </span>
        <span className={styles["key"]}>
          <svg viewBox="0 0 24 18" aria-hidden="true">
            <path d="M0 12L12 0M4 18L22 0M14 18L24 8" className={styles["outageStroke"]} />
            <rect x="0.5" y="0.5" width="23" height="17" className={styles["outageKey"]} />
          </svg>
          out of service
        </span>
        <span className={styles["key"]}>
          <svg viewBox="0 0 24 18" aria-hidden="true">
            <TroubleSign x={12} y={9} />
          </svg>
          clash
        </span>
      </div>
    </figcaption>
  );
}

function RampScale({ id }: { readonly id: string }) {
  const marks = [RAMP_FROM_C, 200, 400, 600, 800];
  const x = (celsius: number) => 8 + (204 * (celsius - RAMP_FROM_C)) / (RAMP_TO_C - RAMP_FROM_C);
  return (
    <svg viewBox="0 0 240 30" className={styles["scale"]} role="img" aria-label="Colours from 20 °C, dark slate, to 900 °C, pale straw">
      <defs>
        <RampGradient id={id} fromC={RAMP_FROM_C} toC={RAMP_TO_C} />
      </defs>
      <rect x="8" y="1" width="204" height="9" fill={`url(#${id})`} className={styles["scaleStrip"]} />
      {marks.map((celsius) => (
        <g key={celsius}>
          <path d={`M${x(celsius)} 10v4`} className={styles["ruler"]} />
          <text x={x(celsius)} y="26" fontSize="11" textAnchor="middle" className={styles["weekText"]}>
            {celsius}
          </text>
        </g>
      ))}
      <text x="216" y="26" fontSize="11" className={styles["weekText"]}>
        °C
      </text>
    </svg>
  );
}
