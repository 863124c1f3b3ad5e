import { Temporal } from "temporal-polyfill";
import { stageTimes } from "@/lib/domain/booking/stage-times";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showInterval } from "@/lib/domain/time/show-time";
import { rampColour } from "./temperature-ramp";
import styles from "./run-timeline.module.css";

export type TimelinePart = {
  readonly purpose: string;
  readonly equipmentName: string;
  /** ISO instants. */
  readonly from: string;
  readonly to: string;
  readonly hands?: number | undefined;
};

export type TimelineLift = {
  readonly what: string;
  readonly from: string;
  readonly to: string;
  readonly kg: number;
  readonly hands: number;
  readonly trolleyName: string | null;
  readonly flag: string;
};

type Props = {
  readonly parts: readonly TimelinePart[];
  readonly lifts: readonly TimelineLift[];
  readonly stages: readonly Stage[];
  /** Door closed, ISO. */
  readonly kilnFrom: string;
  readonly timeZone: string;
};

const PURPOSE_WORDS: Readonly<Record<string, string>> = { "steam-out": "Steam-out", load: "Load", kiln: "Kiln", unload: "Unload" };
const ROW = 22;
const WIDTH = 1000;

/** A whole run to scale: one line for each thing it holds, the kiln's in the colours of its stages, and the same in words. */
export function RunTimeline({ parts, lifts, stages, kilnFrom, timeZone }: Props) {
  const rows = rowsOf(parts, lifts);
  const first = Math.min(...rows.map((row) => row.fromMs));
  const last = Math.max(...rows.map((row) => row.toMs));
  const x = (ms: number) => ((ms - first) / (last - first)) * WIDTH;
  return (
    <div className={styles["timeline"]}>
      <svg viewBox={`0 0 ${WIDTH} ${rows.length * ROW}`} preserveAspectRatio="none" aria-hidden="true" className={styles["picture"]} style={{ blockSize: `${rows.length * ROW}px` }}>
        {days(first, last, timeZone).map((ms) => (
          <line key={ms} x1={x(ms)} x2={x(ms)} y1={0} y2={rows.length * ROW} className={styles["day"]} vectorEffect="non-scaling-stroke" />
        ))}
        {rows.map((row, at) =>
          row.key === "kiln" ? (
            <KilnLine key={row.key} stages={stages} kilnFrom={kilnFrom} toMs={row.toMs} x={x} y={at * ROW} />
          ) : (
            <rect key={row.key} x={x(row.fromMs)} y={at * ROW + 5} width={Math.max(4, x(row.toMs) - x(row.fromMs))} height={ROW - 10} className={styles["part"]} />
          ),
        )}
      </svg>
      <ol className={styles["words"]}>
        {rows.map((row) => (
          <li key={row.key}>
            <strong>{row.title}</strong> <span>{showInterval({ start: at(row.fromMs), end: at(row.toMs) }, timeZone)}</span>
            <span className={styles["soft"]}>{row.detail}</span>
          </li>
        ))}
      </ol>
    </div>
  );
}

type Row = { readonly key: string; readonly title: string; readonly detail: string; readonly fromMs: number; readonly toMs: number };

/** Bookings in order; a load moved without a trolley has a lift but no booking, and stands here all the same. */
function rowsOf(parts: readonly TimelinePart[], lifts: readonly TimelineLift[]): readonly Row[] {
  const booked = parts.map((part): Row => {
    const lift = lifts.find((one) => one.what === part.purpose);
    return { key: part.purpose, title: PURPOSE_WORDS[part.purpose] ?? part.purpose, detail: lift === undefined ? part.equipmentName : liftText(lift), fromMs: Date.parse(part.from), toMs: Date.parse(part.to) };
  });
  const bare = lifts
    .filter((lift) => (lift.what === "load" || lift.what === "unload") && !parts.some((part) => part.purpose === lift.what))
    .map((lift): Row => ({ key: lift.what, title: PURPOSE_WORDS[lift.what] ?? lift.what, detail: liftText(lift), fromMs: Date.parse(lift.from), toMs: Date.parse(lift.to) }));
  return [...booked, ...bare].sort((a, b) => a.fromMs - b.fromMs);
}

function liftText({ kg, hands, trolleyName }: TimelineLift): string {
  return `${kg.toFixed(1)} kg, ${hands === 1 ? "1 person" : `${hands} people`}${trolleyName === null ? "" : `, ${trolleyName}`}`;
}

type KilnLineProps = { readonly stages: readonly Stage[]; readonly kilnFrom: string; readonly toMs: number; readonly x: (ms: number) => number; readonly y: number };

function KilnLine({ stages, kilnFrom, toMs, x, y }: KilnLineProps) {
  const times = stageTimes(stages, Temporal.Instant.from(kilnFrom), at(toMs));
  return times.map(({ stage, start, end }) => {
    const hottest = Math.max(...stages.filter((one) => one.stage === stage).map((one) => one.toC));
    const from = x(start.epochMilliseconds);
    return <rect key={stage} x={from} y={y + 2} width={Math.max(1, x(end.epochMilliseconds) - from)} height={ROW - 4} fill={rampColour(hottest)} className={styles["stage"]} />;
  });
}

function days(firstMs: number, lastMs: number, timeZone: string): readonly number[] {
  const ticks: number[] = [];
  let day = at(firstMs).toZonedDateTimeISO(timeZone).startOfDay().add({ days: 1 });
  while (day.epochMilliseconds < lastMs && ticks.length < 120) {
    ticks.push(day.epochMilliseconds);
    day = day.add({ days: 1 });
  }
  return ticks;
}

function at(ms: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(ms));
}
