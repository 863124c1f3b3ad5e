import { classNames } from "./class-names";
import { CurveAxes } from "./curve-axes";
import { CurveArea, CurveLine } from "./curve-drawing";
import { curveFrame, type CurveSize } from "./curve-layout";
import curve from "./firing-curve.module.css";
import { numberText } from "./number-text";
import { programLine, type Segment } from "./program-line";
import styles from "./program-pair.module.css";
import type { Stage } from "@/lib/domain/firing/casting-plan";

/** A program, what it is called, and when its kiln's door closes (an ISO instant). */
export type NamedProgram = { readonly name: string; readonly stages: readonly Stage[]; readonly kilnFrom: string };
type ProgramPairProps = { readonly now: NamedProgram; readonly before: NamedProgram | null; readonly timeZone: string };

/** One drawing per room it may be given; the stylesheet shows the one that fits. */
const SIZES: readonly { readonly name: string; readonly size: CurveSize }[] = [
  { name: "small", size: { width: 360, plotHeight: 220, text: 12 } },
  { name: "middle", size: { width: 560, plotHeight: 250, text: 12 } },
  { name: "large", size: { width: 1000, plotHeight: 320, text: 14 } },
];

/** A program over the one it takes the place of, on one clock and to one scale: the old one dashed. */
export function ProgramPair({ now, before, timeZone }: ProgramPairProps) {
  const programs = before === null ? [now] : [now, before];
  const fromMs = Math.min(...programs.map(({ kilnFrom }) => Date.parse(kilnFrom)));
  const [line = [], old = []] = programs.map((program) => lineFrom(program, fromMs));
  const hours = Math.max(...[...line, ...old].map(({ toH }) => toH));
  const peakC = Math.max(...[...line, ...old].map(({ toC }) => toC));
  const said = `${programs.map(wordsOf).join("; ")}.`;
  return (
    <figure className={curve["figure"]}>
      {SIZES.map(({ name, size }) => {
        const frame = curveFrame(size, hours, peakC, 0);
        return (
          <div key={name} className={classNames(curve["variant"], curve[name])}>
            <svg viewBox={`0 0 ${frame.width} ${frame.height}`} role="img" aria-label={said} className={curve["picture"]}>
              <CurveAxes frame={frame} hours={hours} text={size.text} startClock={{ instantMs: fromMs, timeZone }} />
              <CurveArea segments={line} frame={frame} />
              <CurveLine segments={line} frame={frame} />
              <CurveLine segments={old} frame={frame} className={styles["halo"]} />
              <CurveLine segments={old} frame={frame} className={styles["before"]} />
            </svg>
          </div>
        );
      })}
      <figcaption className={styles["key"]}>
        {programs.map((program) => (
          <span key={program.name} className={styles["named"]}>
            <svg viewBox="0 0 36 8" width="36" height="8" aria-hidden="true">
              <path d="M1 4H35" className={program === now ? curve["line"] : styles["before"]} />
            </svg>
            {wordsOf(program)}
          </span>
        ))}
      </figcaption>
    </figure>
  );
}

function wordsOf({ name, stages }: NamedProgram): string {
  const hours = stages.reduce((sum, stage) => sum + stage.hours, 0);
  const peakC = Math.max(...stages.map(({ toC }) => toC));
  return `${name}: ${numberText(hours)} h, at most ${numberText(peakC)} °C`;
}

function lineFrom({ stages, kilnFrom }: NamedProgram, fromMs: number): readonly Segment[] {
  const later = (Date.parse(kilnFrom) - fromMs) / 3_600_000;
  return programLine(stages).map((segment) => ({ ...segment, fromH: segment.fromH + later, toH: segment.toH + later }));
}
