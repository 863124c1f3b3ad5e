import { numberText } from "@/app/_components/number-text";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import type { Glass } from "@/lib/domain/glass/glass";
import { retardationNmPerCm } from "@/lib/domain/stress/retardation";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import type { HistoryFrame } from "./history-frame";
import { HistoryLines } from "./history-lines";
import styles from "./history.module.css";

type StressPanelProps = { readonly frame: HistoryFrame; readonly history: PlanHistory | null; readonly limits: StressLimits; readonly glass: Pick<Glass, "stressOpticBrewster">; readonly text: number; /** Of the stretch of time shown. */ readonly clip: string };

/** Stress of surface and core, tension up, with what the level allows; MPa at the left, what polarised light shows at the right. */
export function StressPanel({ frame, history, limits, glass, text, clip }: StressPanelProps) {
  const { heat, stress } = frame;
  const rows = history?.rows.filter(({ h }) => h >= history.glassFromH) ?? [];
  const small = text - 1;
  return (
    <g>
      {stress.marks.map((MPa) => (
        <g key={MPa}>
          <path d={`M${heat.left} ${stress.y(MPa)}H${heat.right}`} className={MPa === 0 ? styles["axis"] : styles["grid"]} />
          <text x={heat.left - 7} y={stress.y(MPa) + small * 0.34} fontSize={small} textAnchor="end" className={styles["axisText"]}>
            {markText(MPa, stress.marks)}
          </text>
          <text x={heat.right + 7} y={stress.y(MPa) + small * 0.34} fontSize={small} className={styles["axisText"]}>
            {numberText(retardationNmPerCm(glass, MPa))}
          </text>
        </g>
      ))}
      <text x={heat.left - 7} y={stress.top - 8} fontSize={small} textAnchor="end" className={styles["axisText"]}>
        MPa
      </text>
      <text x={heat.width - 2} y={stress.top - 8} fontSize={small} textAnchor="end" className={styles["axisText"]}>
        nm/cm
      </text>
      <text x={heat.left + 6} y={stress.y(0) - 6} fontSize={small} className={styles["axisText"]}>
        ↑ tension
      </text>
      <text x={heat.left + 6} y={stress.y(0) + small + 3} fontSize={small} className={styles["axisText"]}>
        ↓ compression
      </text>
      <g clipPath={`url(#${clip})`}>
        <HistoryLines
          lines={[
            { kind: "surface", points: rows.map(({ h, surfaceMPa }) => [heat.x(h), stress.y(surfaceMPa)]) },
            { kind: "core", points: rows.map(({ h, centreMPa }) => [heat.x(h), stress.y(centreMPa)]) },
          ]}
        />
      </g>
      <Limit frame={frame} MPa={limits.passingMPa} name="passing" glass={glass} text={small} />
      <Limit frame={frame} MPa={limits.permanentMPa} name="for good" glass={glass} text={small} atEnd below={Math.abs(stress.y(limits.permanentMPa) - stress.y(limits.passingMPa)) < text + 6} />
    </g>
  );
}

type LimitProps = { readonly frame: HistoryFrame; readonly MPa: number; readonly name: string; readonly glass: StressPanelProps["glass"]; readonly text: number; readonly atEnd?: boolean; readonly below?: boolean };

function Limit({ frame: { heat, stress }, MPa, name, glass, text, atEnd = false, below = false }: LimitProps) {
  const y = stress.y(MPa);
  return (
    <g>
      <path d={`M${heat.left} ${y}H${heat.right}`} className={styles["limit"]} />
      <text x={atEnd ? heat.right - 6 : heat.left + 6} y={below ? y + text + 2 : y - 4} fontSize={text} textAnchor={atEnd ? "end" : "start"} className={styles["limitText"]}>
        {`at most ${MPa} MPa (${numberText(retardationNmPerCm(glass, MPa))} nm/cm) ${name}`}
      </text>
    </g>
  );
}

function markText(MPa: number, marks: readonly number[]): string {
  const finest = Math.abs((marks[1] ?? 1) - (marks[0] ?? 0));
  return numberText(MPa, finest < 0.1 ? 2 : finest < 1 ? 1 : 0);
}
