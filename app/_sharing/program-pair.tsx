import { classNames } from "@/app/_components/class-names";
import { CurveAxes } from "@/app/_components/curve-axes";
import { CurveArea, CurveLine } from "@/app/_components/curve-drawing";
import { curveFrame, type CurveFrame, type CurveSize } from "@/app/_components/curve-layout";
import curve from "@/app/_components/firing-curve.module.css";
import { numberText } from "@/app/_components/number-text";
import { programLine, type Segment } from "@/app/_components/program-line";
import type { SharedMoment } from "@/lib/server/joining/shared-view";
import styles from "./sharing.module.css";

type ProgramPairProps = { readonly after: SharedMoment; readonly before: SharedMoment | null; readonly timeZone: string };

const SIZES: readonly { readonly name: string; readonly size: CurveSize }[] = [
  { name: "small", size: { width: 360, plotHeight: 220, text: 12 } },
  { name: "middle", size: { width: 560, plotHeight: 250, text: 12 } },
  { name: "large", size: { width: 1000, plotHeight: 320, text: 14 } },
];

/** The joined program over the one it would take the place of, on one clock: the old one dashed. */
export function ProgramPair({ after, before, timeZone }: ProgramPairProps) {
  const fromMs = Math.min(Date.parse(after.kilnFrom), before === null ? Infinity : Date.parse(before.kilnFrom));
  const joined = lineFrom(after, fromMs);
  const old = before === null ? [] : lineFrom(before, fromMs);
  const hours = Math.max(...[joined, old].map((line) => line.at(-1)?.toH ?? 0));
  const peakC = Math.max(...[...joined, ...old].map(({ toC }) => toC));
  const said = `The joined program takes ${numberText(hoursOf(after))} h, hottest ${numberText(Math.max(...joined.map(({ toC }) => toC)))} °C${before === null ? "" : `; the firing as it is takes ${numberText(hoursOf(before))} h`}.`;
  return (
    <figure className={curve["figure"]}>
      {SIZES.map(({ name, size }) => {
        const frame = curveFrame(size, hours, peakC, 0);
        return (
          <div key={name} className={classNames(curve["variant"], curve[name])}>
            <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={said} className={styles["pair"]}>
              <CurveAxes frame={frame} hours={hours} text={size.text} startClock={{ instantMs: fromMs, timeZone }} />
              <CurveArea segments={joined} frame={frame} />
              <CurveLine segments={joined} frame={frame} />
              {old.length > 0 && <polyline points={pointsOf(old, frame)} className={styles["old"]} />}
            </svg>
          </div>
        );
      })}
      <figcaption className={curve["caption"]}>
        {said} {before !== null && "Solid: all together. Dashed: as it stands now."}
      </figcaption>
    </figure>
  );
}

function hoursOf({ stages }: SharedMoment): number {
  return stages.reduce((sum, { hours }) => sum + hours, 0);
}

function lineFrom({ stages, kilnFrom }: SharedMoment, fromMs: number): readonly Segment[] {
  const later = (Date.parse(kilnFrom) - fromMs) / 3_600_000;
  return programLine(stages).map((segment) => ({ ...segment, fromH: segment.fromH + later, toH: segment.toH + later }));
}

function pointsOf(segments: readonly Segment[], { x, y }: CurveFrame): string {
  const [first] = segments;
  const start = first === undefined ? [] : [`${x(first.fromH)},${y(first.fromC)}`];
  return [...start, ...segments.map(({ toH, toC }) => `${x(toH)},${y(toC)}`)].join(" ");
}
