import { useId } from "react";
import { CurveArea } from "@/app/_components/curve-drawing";
import { tierY, type PlacedLabel } from "@/app/_components/curve-layout";
import type { Segment, StageSpan } from "@/app/_components/program-line";
import { RampGradient } from "@/app/_components/ramp-gradient";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import type { HistoryFrame } from "./history-frame";
import { HistoryLines, type Point } from "./history-lines";
import styles from "./history.module.css";

type HeatPanelProps = {
  readonly frame: HistoryFrame;
  readonly segments: readonly Segment[];
  readonly whatIf: readonly Segment[];
  readonly spans: readonly StageSpan[];
  readonly labels: readonly PlacedLabel[];
  readonly history: PlanHistory | null;
  readonly text: number;
};

/** The program in the colours of its temperatures, and how surface and core of the glass follow it. */
export function HeatPanel({ frame, segments, whatIf, spans, labels, history, text }: HeatPanelProps) {
  const clip = useId();
  const { heat, stress } = frame;
  const rows = history?.rows ?? [];
  return (
    <g>
      <defs>
        <clipPath id={clip}>
          <rect x={heat.left} y={heat.top - 8} width={heat.right - heat.left} height={heat.bottom - heat.top + 8} />
        </clipPath>
      </defs>
      <HeatAxis frame={frame} text={text - 1} />
      <g clipPath={`url(#${clip})`}>
        <CurveArea segments={segments} frame={heat} />
      </g>
      {spans.map((span, i) => (
        <StageName key={span.fromH} span={span} label={labels[i]} frame={frame} text={text} foot={stress.bottom} />
      ))}
      <g clipPath={`url(#${clip})`}>
        <HistoryLines
          lines={[
            { kind: "whatIf", points: programPoints(whatIf, frame) },
            { kind: "kiln", points: programPoints(segments, frame) },
            { kind: "surface", points: rows.map(({ h, surfaceC }) => [heat.x(h), heat.y(surfaceC)]) },
            { kind: "core", points: rows.map(({ h, coreC }) => [heat.x(h), heat.y(coreC)]) },
          ]}
        />
      </g>
    </g>
  );
}

function programPoints(segments: readonly Segment[], { heat: { x, y } }: HistoryFrame): readonly Point[] {
  const [first] = segments;
  if (first === undefined) return [];
  return [[x(first.fromH), y(first.fromC)], ...segments.map((segment): Point => [x(segment.toH), y(segment.toC)])];
}

function HeatAxis({ frame: { heat }, text }: { readonly frame: HistoryFrame; readonly text: number }) {
  const ramp = useId();
  const step = heat.topC <= 600 ? 100 : 200;
  const levels = Array.from({ length: Math.floor(heat.topC / step) + 1 }, (_, i) => i * step);
  return (
    <g>
      <defs>
        <RampGradient id={ramp} fromC={0} toC={heat.topC} upright />
      </defs>
      {levels.map((celsius) => (
        <g key={celsius}>
          <path d={`M${heat.left} ${heat.y(celsius)}H${heat.right}`} className={celsius === 0 ? styles["axis"] : styles["grid"]} />
          <text x={heat.left - 12} y={heat.y(celsius) + text * 0.34} fontSize={text} textAnchor="end" className={styles["axisText"]}>
            {celsius === 0 ? "0 °C" : celsius}
          </text>
        </g>
      ))}
      <rect x={heat.left - 7} y={heat.y(heat.topC)} width="5" height={heat.bottom - heat.top} fill={`url(#${ramp})`} />
    </g>
  );
}

/** A stage's name over its stretch, and a thin rule through both panels where it begins. */
function StageName({ span, label, frame: { heat, fromH }, text, foot }: { readonly span: StageSpan; readonly label: PlacedLabel | undefined; readonly frame: HistoryFrame; readonly text: number; readonly foot: number }) {
  if (label === undefined) return null;
  const y = tierY(heat, label.tier);
  const [from, to] = [heat.x(Math.max(span.fromH, fromH)), heat.x(span.toH)];
  return (
    <g>
      <path d={`M${from} ${heat.top - 6}V${foot}M${from} ${heat.top - 6}H${to}V${heat.top}M${(from + to) / 2} ${heat.top - 6}L${label.x} ${y + 5}`} className={styles["stageRule"]} />
      <rect x={label.x - label.width / 2} y={y - text * 0.75} width={label.width} height={text * 1.3} className={styles["labelPaper"]} />
      <text x={label.x} y={y + text * 0.3} fontSize={text} textAnchor="middle" className={styles["stageName"]}>
        {span.stage}
      </text>
    </g>
  );
}
