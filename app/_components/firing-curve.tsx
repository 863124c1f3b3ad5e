"use client";

import { useState } from "react";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showHours } from "@/lib/domain/time/show-time";
import { classNames } from "./class-names";
import { CurveArea, CurveDrawing, CurveLine } from "./curve-drawing";
import { curveFrame, type CurveSize } from "./curve-layout";
import { numberText, rateText } from "./number-text";
import { programLine, stageSpans, type Segment, type StageSpan } from "./program-line";
import { clockText, StageTable, type StartClock } from "./stage-table";
import styles from "./firing-curve.module.css";

type FiringCurveProps = {
  readonly stages: readonly Stage[];
  /** When the firing starts; the foot of the curve then shows dates. */
  readonly startClock?: StartClock | undefined;
  /** A small outline without words, for lists. */
  readonly compact?: boolean | undefined;
  /** Leaves out the table of stages that otherwise follows. */
  readonly withoutTable?: boolean | undefined;
};

/** One drawing per room it may be given; the stylesheet shows the one that fits, on screen and on paper. */
const SIZES: readonly { readonly name: string; readonly size: CurveSize }[] = [
  { name: "small", size: { width: 360, plotHeight: 230, text: 12 } },
  { name: "middle", size: { width: 560, plotHeight: 270, text: 12 } },
  { name: "large", size: { width: 1000, plotHeight: 350, text: 14 } },
];

/** The firing plan as a curve: temperature over time, to scale. */
export function FiringCurve({ stages, startClock, compact = false, withoutTable = false }: FiringCurveProps) {
  const [shown, setShown] = useState<number>();
  const segments = programLine(stages);
  const spans = stageSpans(segments);
  const summary = summaryText(segments, startClock);
  if (compact) return <CompactCurve segments={segments} summary={summary} />;
  const span = shown === undefined ? undefined : spans[shown];
  const describe = (one: StageSpan) => spanText(one, startClock);
  return (
    <div className={styles["whole"]}>
      <figure className={styles["figure"]}>
        {SIZES.map(({ name, size }) => (
          <div key={name} className={classNames(styles["variant"], styles[name])}>
            <CurveDrawing segments={segments} size={size} summary={summary} startClock={startClock} shown={shown} onShow={setShown} describe={describe} />
          </div>
        ))}
        <figcaption className={styles["caption"]}>{span === undefined ? summary : describe(span)}</figcaption>
      </figure>
      {!withoutTable && <StageTable stages={stages} startClock={startClock} />}
    </div>
  );
}

function CompactCurve({ segments, summary }: { readonly segments: readonly Segment[]; readonly summary: string }) {
  const peakC = segments.reduce((peak, segment) => Math.max(peak, segment.toC), 0);
  const inner = curveFrame({ width: 240, plotHeight: 56, text: 0 }, segments.at(-1)?.toH ?? 0, peakC, 0);
  const viewBox = `${inner.left - 2} ${inner.top - 2} ${inner.right - inner.left + 4} ${inner.bottom - inner.top + 4}`;
  return (
    <svg viewBox={viewBox} role="img" aria-label={summary} className={styles["compact"]}>
      <CurveArea segments={segments} frame={inner} />
      <CurveLine segments={segments} frame={inner} />
      <path d={`M${inner.left} ${inner.bottom}H${inner.right}`} className={styles["axis"]} />
    </svg>
  );
}

function summaryText(segments: readonly Segment[], startClock: StartClock | undefined): string {
  const hours = segments.at(-1)?.toH ?? 0;
  const peak = segments.reduce((hottest, segment) => Math.max(hottest, segment.toC), 0);
  const when = startClock === undefined ? "" : `, from ${clockText(startClock, 0)} to ${clockText(startClock, hours)}`;
  const parts = stageSpans(segments).map((span) => `${span.stage} ${hoursText(span.toH - span.fromH)}`);
  return `Firing of ${showHours(hours)}${when}. Hottest ${numberText(peak)} °C. ${parts.join(", ")}.`;
}

function spanText(span: StageSpan, startClock: StartClock | undefined): string {
  const [first] = span.segments;
  const rate = span.segments.length === 1 && first.rateKPerH !== 0 ? ` at ${rateText(first.rateKPerH)}` : "";
  const range = Math.abs(span.toC - span.fromC) < 1 ? `at ${numberText(span.toC)} °C` : `${numberText(span.fromC)} to ${numberText(span.toC)} °C${rate}`;
  const when = startClock === undefined ? "" : `, from ${clockText(startClock, span.fromH)} to ${clockText(startClock, span.toH)}`;
  const whys = [...new Set(span.segments.map((segment) => segment.why))].join(" ");
  return `${span.stage}: ${range}, ${hoursText(span.toH - span.fromH)}${when}. ${whys}`;
}

function hoursText(hours: number): string {
  return `${numberText(hours, hours < 10 ? 1 : 0)} h`;
}
