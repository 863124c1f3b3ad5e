import { useId } from "react";
import { curveFrame, placeLabels, tierY, type CurveFrame, type CurveSize, type PlacedLabel } from "./curve-layout";
import { CurveAxes } from "./curve-axes";
import { stageSpans, type Segment, type StageSpan } from "./program-line";
import { RampGradient, rampFill } from "./ramp-gradient";
import { StagePatterns, stagePatternId } from "./stage-pattern";
import type { StartClock } from "./stage-table";
import styles from "./firing-curve.module.css";

type CurveDrawingProps = {
  readonly segments: readonly Segment[];
  readonly size: CurveSize;
  readonly summary: string;
  readonly startClock?: StartClock | undefined;
  /** The stage being looked at, by its place in the plan. */
  readonly shown?: number | undefined;
  readonly onShow: (index: number | undefined) => void;
  readonly describe: (span: StageSpan) => string;
};

/** The firing curve at one size: the picture, and over it the stages as buttons. */
export function CurveDrawing({ segments, size, summary, startClock, shown, onShow, describe }: CurveDrawingProps) {
  const spans = stageSpans(segments);
  const hours = segments.at(-1)?.toH ?? 0;
  const peakC = segments.reduce((peak, segment) => Math.max(peak, segment.toC), 0);
  const labels = placeLabels(spans, size, curveFrame(size, hours, peakC, 1).x);
  const tiers = labels.reduce((most, label) => Math.max(most, label.tier + 1), 1);
  const frame = curveFrame(size, hours, peakC, tiers);
  const viewBox = `0 0 ${frame.width} ${frame.height}`;
  return (
    <div className={styles["drawing"]}>
      <svg viewBox={viewBox} role="img" aria-label={summary} className={styles["picture"]}>
        <CurveAxes frame={frame} hours={hours} text={size.text} startClock={startClock} />
        <CurveArea segments={segments} frame={frame} />
        {spans.map((span, i) => (
          <StageRule key={span.fromH + span.stage} span={span} label={labels[i]} frame={frame} lit={shown === i} />
        ))}
        {spans.map((span, i) => (
          <StageLabel key={span.fromH + span.stage} span={span} label={labels[i]} frame={frame} text={size.text} lit={shown === i} />
        ))}
        <CurveLine segments={segments} frame={frame} />
        <HoldMarks segments={segments} frame={frame} text={size.text} peakC={peakC} />
      </svg>
      <svg viewBox={viewBox} role="group" aria-label="Stages of the firing" className={styles["buttons"]}>
        {spans.map((span, i) => (
          <StageButton key={span.fromH + span.stage} label={labels[i]} frame={frame} span={span} name={describe(span)} pressed={shown === i} onShow={() => onShow(i)} onLeave={() => onShow(undefined)} />
        ))}
      </svg>
    </div>
  );
}

/** The area under the program, each moment in the colour of its temperature, with the stage's pattern on it. */
export function CurveArea({ segments, frame }: { readonly segments: readonly Segment[]; readonly frame: CurveFrame }) {
  const prefix = useId();
  const timed = segments.filter((segment) => segment.toH > segment.fromH);
  return (
    <g>
      <defs>
        <StagePatterns prefix={prefix} stages={[...new Set(timed.map((segment) => segment.stage))]} />
        {timed.map((segment, i) => (
          <RampGradient key={segment.fromH} id={`${prefix}-ramp-${i}`} fromC={segment.fromC} toC={segment.toC} />
        ))}
      </defs>
      {timed.map((segment, i) => {
        const points = areaPoints(segment, frame);
        return (
          <g key={segment.fromH}>
            <polygon points={points} fill={rampFill(`${prefix}-ramp-${i}`, segment.fromC, segment.toC)} />
            <polygon points={points} fill={`url(#${stagePatternId(prefix, segment.stage)})`} className={styles["pattern"]} />
          </g>
        );
      })}
    </g>
  );
}

export function CurveLine({ segments, frame, className = styles["line"] }: { readonly segments: readonly Segment[]; readonly frame: CurveFrame; readonly className?: string | undefined }) {
  const first = segments[0];
  if (first === undefined) return null;
  const points = [`${frame.x(first.fromH)},${frame.y(first.fromC)}`, ...segments.map((segment) => `${frame.x(segment.toH)},${frame.y(segment.toC)}`)];
  return <polyline points={points.join(" ")} className={className} />;
}

function areaPoints(segment: Segment, { x, y, bottom }: CurveFrame): string {
  const [from, to] = [x(segment.fromH), x(segment.toH)];
  // Half a pixel over the edge, or the paper shines through between neighbours.
  const over = to + 0.5;
  return `${from},${bottom} ${from},${y(segment.fromC)} ${to},${y(segment.toC)} ${over},${y(segment.toC)} ${over},${bottom}`;
}

type StageRuleProps = { readonly span: StageSpan; readonly label: PlacedLabel | undefined; readonly frame: CurveFrame; readonly lit: boolean };

/** A thin rule where a stage begins, and a leader up to its name. */
function StageRule({ span, label, frame, lit }: StageRuleProps) {
  if (label === undefined) return null;
  const [from, to] = [frame.x(span.fromH), frame.x(span.toH)];
  const middle = (from + to) / 2;
  const labelY = tierY(frame, label.tier);
  return (
    <g className={lit ? styles["lit"] : undefined}>
      {lit && <rect x={from} y={frame.top} width={Math.max(to - from, 2)} height={frame.bottom - frame.top} className={styles["wash"]} />}
      <path d={`M${from} ${frame.top - 6}V${frame.bottom}M${from} ${frame.top - 6}H${to}V${frame.top}`} className={styles["rule"]} />
      <path d={`M${middle} ${frame.top - 6}L${middle} ${Math.min(labelY + 6, frame.top - 6)}L${label.x} ${labelY + 4}`} className={styles["rule"]} />
    </g>
  );
}

/** The name stands on its own paper, over the leaders of its neighbours. */
function StageLabel({ span, label, frame, text, lit }: StageRuleProps & { readonly text: number }) {
  if (label === undefined) return null;
  const labelY = tierY(frame, label.tier);
  return (
    <g className={lit ? styles["lit"] : undefined}>
      <rect x={label.x - label.width / 2} y={labelY - text * 0.75} width={label.width} height={text * 1.3} className={styles["labelPaper"]} />
      <text x={label.x} y={labelY + text * 0.3} fontSize={text} textAnchor="middle" className={styles["stageName"]}>
        {span.stage}
      </text>
    </g>
  );
}

/** Writes the temperature at the holds that decide the work: the peak and the soak. */
function HoldMarks({ segments, frame, text, peakC }: { readonly segments: readonly Segment[]; readonly frame: CurveFrame; readonly text: number; readonly peakC: number }) {
  const peak = segments.findLast((segment) => segment.toC === peakC);
  const soak = segments.findLast((segment) => segment.stage === "Soak" && segment.toC < peakC);
  return [peak, soak].map(
    (hold) =>
      hold && (
        <text key={hold.stage} x={frame.x(hold.toH) + 6} y={frame.y(hold.toC) - (hold === soak ? 7 : -4)} fontSize={text} className={styles["mark"]}>
          {Math.round(hold.toC)} °C
        </text>
      ),
  );
}

type StageButtonProps = {
  readonly span: StageSpan;
  readonly label: PlacedLabel | undefined;
  readonly frame: CurveFrame;
  readonly name: string;
  readonly pressed: boolean;
  readonly onShow: () => void;
  readonly onLeave: () => void;
};

function StageButton({ span, label, frame, name, pressed, onShow, onLeave }: StageButtonProps) {
  const [from, to] = [frame.x(span.fromH), frame.x(span.toH)];
  const labelY = label === undefined ? frame.top : tierY(frame, label.tier);
  return (
    <g
      role="button"
      tabIndex={0}
      aria-label={name}
      aria-pressed={pressed}
      className={styles["stageButton"]}
      onFocus={onShow}
      onBlur={onLeave}
      onMouseEnter={onShow}
      onMouseLeave={onLeave}
      onClick={onShow}
      onKeyDown={(event) => {
        if (event.key === "Enter" || event.key === " ") {
          event.preventDefault();
          onShow();
        }
      }}
    >
      <rect x={from} y={frame.top - 6} width={Math.max(to - from, 6)} height={frame.bottom - frame.top + 6} />
      {label !== undefined && <rect x={label.x - label.width / 2} y={labelY - 11} width={label.width} height={22} rx="2" className={styles["ring"]} />}
    </g>
  );
}
