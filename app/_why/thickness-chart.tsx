import { numberText } from "@/app/_components/number-text";
import { HOURS_PER_WEEK } from "@/lib/domain/units";
import type { Sweep, SweepPoint } from "./use-thickness-sweep";
import styles from "./thickness-chart.module.css";

type ThicknessChartProps = { readonly sweep: Sweep; readonly present: SweepPoint | null; readonly asked: SweepPoint | null };

const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM] = [360, 230, 40, 14, 24, 40];

/** Kiln-weeks against the thickest part: where the casting stands, and how steep it is there. */
export function ThicknessChart({ sweep, present, asked }: ThicknessChartProps) {
  const { reach: [least, most], points, busy } = sweep;
  const inside = asked !== null && asked.thickestMm >= least && asked.thickestMm <= most ? asked : null;
  const longest = Math.max(HOURS_PER_WEEK / 2, ...[...points, ...(present === null ? [] : [present]), ...(inside === null ? [] : [inside])].map(({ hours }) => hours)) / HOURS_PER_WEEK;
  const step = [0.2, 0.5, 1, 2, 5, 10].find((one) => longest / one <= 5) ?? 20;
  const top = Math.ceil(longest / step) * step;
  const x = (mm: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * (mm - least)) / Math.max(1, most - least);
  const y = (weeks: number): number => HEIGHT - BOTTOM - ((HEIGHT - BOTTOM - TOP) * weeks) / top;
  const at = ({ thickestMm, hours }: SweepPoint) => [x(thickestMm), y(hours / HOURS_PER_WEEK)] as const;
  const marks = Array.from({ length: Math.round(top / step) + 1 }, (_, i) => i * step);
  const ticks = points.filter((_, i) => i % 2 === 0);
  const said = points.map(({ thickestMm, hours }) => `${thickestMm} mm ${numberText(hours / HOURS_PER_WEEK, 1)}`).join(", ");
  return (
    <figure className={styles["chart"]} aria-busy={busy || undefined}>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`Kiln-weeks against the thickest part: ${said}.`}>
        {marks.map((weeks) => (
          <g key={weeks}>
            <path d={`M${LEFT} ${y(weeks)}H${WIDTH - RIGHT}`} className={weeks === 0 ? styles["axis"] : styles["grid"]} />
            <text x={LEFT - 6} y={y(weeks) + 4} textAnchor="end" className={styles["words"]}>
              {numberText(weeks, step < 1 ? 1 : 0)}
            </text>
          </g>
        ))}
        <text x="2" y="12" className={styles["words"]}>kiln-weeks</text>
        <text x={WIDTH - RIGHT} y={HEIGHT - 4} textAnchor="end" className={styles["words"]}>thickest part, mm</text>
        {ticks.map((point) => (
          <text key={point.thickestMm} x={at(point)[0]} y={HEIGHT - BOTTOM + 16} textAnchor="middle" className={styles["words"]}>
            {point.thickestMm}
          </text>
        ))}
        <polyline points={points.map((point) => at(point).join(",")).join(" ")} className={styles["line"]} />
        {points.map((point) => (
          <circle key={point.thickestMm} cx={at(point)[0]} cy={at(point)[1]} r="2.5" className={styles["point"]} />
        ))}
        {present !== null && <Mark at={at(present)} name="now" solid />}
        {inside !== null && <Mark at={at(inside)} name="what if" />}
      </svg>
      <figcaption className={styles["caption"]}>{busy ? "Working out other thicknesses…" : "With the wall and the stress level the casting has now."}</figcaption>
    </figure>
  );
}

/** The present stands as a full disc, what is asked as an open square. */
function Mark({ at: [x, y], name, solid = false }: { readonly at: readonly [number, number]; readonly name: string; readonly solid?: boolean }) {
  const atEnd = x > WIDTH / 2;
  return (
    <g>
      {solid ? <circle cx={x} cy={y} r="6" className={styles["now"]} /> : <rect x={x - 5} y={y - 5} width="10" height="10" className={styles["asked"]} />}
      <text x={atEnd ? x - 11 : x + 11} y={solid ? y - 6 : y + 16} textAnchor={atEnd ? "end" : "start"} className={styles["name"]}>
        {name}
      </text>
    </g>
  );
}
