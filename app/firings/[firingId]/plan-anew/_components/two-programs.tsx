import { CurveAxes } from "@/app/_components/curve-axes";
import { CurveArea, CurveLine } from "@/app/_components/curve-drawing";
import { curveFrame, type CurveSize } from "@/app/_components/curve-layout";
import { programLine, type Segment } from "@/app/_components/program-line";
import type { StartClock } from "@/app/_components/stage-table";
import { classNames } from "@/app/_components/class-names";
import curve from "@/app/_components/firing-curve.module.css";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showHours } from "@/lib/domain/time/show-time";
import styles from "../plan-anew.module.css";

type TwoProgramsProps = { readonly booked: readonly Stage[]; readonly anew: readonly Stage[]; readonly startClock: StartClock };

/** One drawing per room it may be given; the stylesheet shows the one that fits. */
const SIZES: readonly { readonly name: string; readonly size: CurveSize }[] = [
  { name: "small", size: { width: 360, plotHeight: 210, text: 12 } },
  { name: "middle", size: { width: 560, plotHeight: 240, text: 12 } },
  { name: "large", size: { width: 1000, plotHeight: 300, text: 14 } },
];

const lengthOf = (segments: readonly Segment[]): number => segments.at(-1)?.toH ?? 0;

/** The program that is booked as a dashed line over the one planned anew, to one scale from the same closing of the door. */
export function TwoPrograms({ booked, anew, startClock }: TwoProgramsProps) {
  const [before, after] = [programLine(booked), programLine(anew)];
  const summary = `As booked ${showHours(lengthOf(before))} of program, planned anew ${showHours(lengthOf(after))}.`;
  return (
    <figure className={curve["figure"]}>
      {SIZES.map(({ name, size }) => (
        <div key={name} className={classNames(curve["variant"], curve[name])}>
          <Drawing before={before} after={after} size={size} startClock={startClock} summary={summary} />
        </div>
      ))}
      <figcaption className={styles["key"]}>
        <KeyLine dashed /> as booked
        <KeyLine /> planned anew
      </figcaption>
    </figure>
  );
}

type DrawingProps = { readonly before: readonly Segment[]; readonly after: readonly Segment[]; readonly size: CurveSize; readonly startClock: StartClock; readonly summary: string };

function Drawing({ before, after, size, startClock, summary }: DrawingProps) {
  const hours = Math.max(lengthOf(before), lengthOf(after));
  const peakC = [...before, ...after].reduce((peak, { toC }) => Math.max(peak, toC), 0);
  const frame = curveFrame(size, hours, peakC, 0);
  const first = before[0];
  const points = first === undefined ? [] : [`${frame.x(first.fromH)},${frame.y(first.fromC)}`, ...before.map(({ toH, toC }) => `${frame.x(toH)},${frame.y(toC)}`)];
  return (
    <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={summary} className={curve["picture"]}>
      <CurveAxes frame={frame} hours={hours} text={size.text} startClock={startClock} />
      <CurveArea segments={after} frame={frame} />
      <CurveLine segments={after} frame={frame} />
      <polyline points={points.join(" ")} className={styles["halo"]} />
      <polyline points={points.join(" ")} className={styles["booked"]} />
    </svg>
  );
}

function KeyLine({ dashed = false }: { readonly dashed?: boolean }) {
  return (
    <svg viewBox="0 0 36 8" width="36" height="8" aria-hidden="true" className={styles["keyLine"]}>
      <path d="M1 4H35" className={dashed ? styles["booked"] : curve["line"]} />
    </svg>
  );
}
