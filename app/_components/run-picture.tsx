import { Temporal } from "temporal-polyfill";
import { useId } from "react";
import { stageTimes } from "@/lib/domain/booking/stage-times";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showDay } from "@/lib/domain/time/show-time";
import { classNames } from "./class-names";
import { stagePatternId, StagePatterns } from "./stage-pattern";
import { rampColour } from "./temperature-ramp";
import styles from "./run-timeline.module.css";

export type PictureRow = { readonly key: string; readonly fromMs: number; readonly toMs: number };

const ROW = 22;
/** Below the kiln's bar stand the names of its stages, and below everything the days. */
const NAMES = 16;
const DAYS = 20;

/** Widths in pixels of the narrowest picture, of the narrowest that counts as wide (56 rem), and of a letter. */
const NARROW = 330;
const WIDE = 896;
const LETTER = 7.3;
/** A day's name needs this share of the narrowest picture. */
const ROOM_FOR_DAY = 0.2;

type Props = { readonly rows: readonly PictureRow[]; readonly stages: readonly Stage[]; readonly kilnFrom: string; readonly timeZone: string };

/**
 * A run to scale, one line for each thing it holds. Lengths along time are shares of the width, so
 * that patterns and letters keep their shape whatever room there is. The words stand beside it.
 */
export function RunPicture({ rows, stages, kilnFrom, timeZone }: Props) {
  const prefix = useId();
  const first = Math.min(...rows.map((row) => row.fromMs));
  const last = Math.max(...rows.map((row) => row.toMs));
  const share = (ms: number) => (ms - first) / (last - first);
  const tops = topsOf(rows);
  const foot = rows.length * ROW + NAMES;
  const times = kilnTimes(rows, stages, kilnFrom);
  return (
    <svg width="100%" height={foot + DAYS} aria-hidden="true" className={styles["picture"]}>
      <defs>
        <StagePatterns prefix={prefix} />
      </defs>
      <Days first={first} last={last} foot={foot} share={share} timeZone={timeZone} />
      {rows.map((row, at) => {
        const y = tops[at] ?? 0;
        if (row.key !== "kiln") return <rect key={row.key} x={percent(share(row.fromMs))} y={y + 5} width={length(share(row.toMs) - share(row.fromMs))} height={ROW - 10} className={styles["part"]} />;
        return times.map((time) => <StageBar key={time.stage} time={time} stages={stages} share={share} y={y} pattern={stagePatternId(prefix, time.stage)} />);
      })}
    </svg>
  );
}

type StageTime = ReturnType<typeof stageTimes>[number];
type StageBarProps = { readonly time: StageTime; readonly stages: readonly Stage[]; readonly share: (ms: number) => number; readonly y: number; readonly pattern: string };

function StageBar({ time: { stage, start, end }, stages, share, y, pattern }: StageBarProps) {
  const hottest = Math.max(...stages.filter((one) => one.stage === stage).map((one) => one.toC));
  const from = share(start.epochMilliseconds);
  const part = share(end.epochMilliseconds) - from;
  const needed = stage.length * LETTER;
  const place = { x: percent(from), y: y + 2, width: percent(part), height: ROW - 4 };
  return (
    <>
      <rect {...place} fill={rampColour(hottest)} />
      <rect {...place} fill={`url(#${pattern})`} className={styles["stage"]} />
      {part * WIDE >= needed && (
        <text x={percent(from)} y={y + ROW + 10} className={classNames(styles["name"], part * NARROW < needed && styles["wideOnly"])}>
          {stage}
        </text>
      )}
    </>
  );
}

type DaysProps = { readonly first: number; readonly last: number; readonly foot: number; readonly share: (ms: number) => number; readonly timeZone: string };

function Days({ first, last, foot, share, timeZone }: DaysProps) {
  const ticks = dayStarts(first, last, timeZone);
  const step = Math.ceil(ticks.length / 4);
  return ticks.map((ms, i) => {
    // A label that would run out of the picture is left out; the words give every time in full.
    const labelled = i % step === 0 && share(ms) < 1 - ROOM_FOR_DAY;
    return (
      <g key={ms}>
        <line x1={percent(share(ms))} x2={percent(share(ms))} y1={0} y2={labelled ? foot + 6 : foot} className={styles["day"]} />
        {labelled && (
          <text x={percent(share(ms))} y={foot + DAYS - 3} className={styles["name"]}>
            {showDay(Temporal.Instant.fromEpochMilliseconds(ms), timeZone)}
          </text>
        )}
      </g>
    );
  });
}

function kilnTimes(rows: readonly PictureRow[], stages: readonly Stage[], kilnFrom: string): readonly StageTime[] {
  const kiln = rows.find((row) => row.key === "kiln");
  return kiln === undefined ? [] : stageTimes(stages, Temporal.Instant.from(kilnFrom), Temporal.Instant.fromEpochMilliseconds(kiln.toMs));
}

function topsOf(rows: readonly PictureRow[]): readonly number[] {
  const kilnAt = rows.findIndex((row) => row.key === "kiln");
  return rows.map((_, at) => at * ROW + (kilnAt >= 0 && at > kilnAt ? NAMES : 0));
}

function dayStarts(firstMs: number, lastMs: number, timeZone: string): readonly number[] {
  const ticks: number[] = [];
  let day = Temporal.Instant.fromEpochMilliseconds(firstMs).toZonedDateTimeISO(timeZone).startOfDay().add({ days: 1 });
  while (day.epochMilliseconds < lastMs && ticks.length < 120) {
    ticks.push(day.epochMilliseconds);
    day = day.add({ days: 1 });
  }
  return ticks;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(3)}%`;
}

/** A lift of half an hour in a run of weeks must still be seen. */
function length(share: number): string {
  return percent(Math.max(0.004, share));
}
