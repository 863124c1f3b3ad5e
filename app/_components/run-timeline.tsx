import { Temporal } from "temporal-polyfill";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showInterval } from "@/lib/domain/time/show-time";
import { RunPicture, type PictureRow } from "./run-picture";
import styles from "./run-timeline.module.css";

export type TimelinePart = {
  readonly purpose: string;
  /** Whose steam-out, in a shared firing. */
  readonly casting?: string | null;
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

/** A whole run to scale: one line for each thing it holds, the kiln's in the colours and patterns of its stages, and the same in words. */
export function RunTimeline({ parts, lifts, stages, kilnFrom, timeZone }: Props) {
  const rows = rowsOf(parts, lifts);
  return (
    <div className={styles["timeline"]}>
      <RunPicture rows={rows} stages={stages} kilnFrom={kilnFrom} timeZone={timeZone} />
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

type Row = PictureRow & { readonly title: string; readonly detail: string };

/** Bookings in order; a load moved without a trolley has a lift but no booking, and stands here all the same. */
function rowsOf(parts: readonly TimelinePart[], lifts: readonly TimelineLift[]): readonly Row[] {
  const booked = parts.map((part): Row => {
    const own = lifts.filter((one) => one.what === part.purpose);
    const word = PURPOSE_WORDS[part.purpose] ?? part.purpose;
    const whose = part.casting ?? undefined;
    return { key: `${part.purpose}/${whose ?? ""}`, title: whose === undefined ? word : `${word}, ${whose}`, detail: own.length === 0 ? part.equipmentName : own.map(liftText).join("; then "), fromMs: Date.parse(part.from), toMs: Date.parse(part.to) };
  });
  const bare = lifts
    .filter((lift) => (lift.what === "load" || lift.what === "unload") && !parts.some((part) => part.purpose === lift.what))
    .map((lift): Row => ({ key: `${lift.what}/${lift.from}`, title: PURPOSE_WORDS[lift.what] ?? lift.what, detail: liftText(lift), fromMs: Date.parse(lift.from), toMs: Date.parse(lift.to) }));
  return [...booked, ...bare].sort((a, b) => a.fromMs - b.fromMs);
}

function liftText({ kg, hands, trolleyName }: TimelineLift): string {
  return `${kg.toFixed(1)} kg, ${hands === 1 ? "1 person" : `${hands} people`}${trolleyName === null ? "" : `, ${trolleyName}`}`;
}

function at(ms: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(ms));
}
