import { Temporal } from "temporal-polyfill";
import { showTime } from "@/lib/domain/time/show-time";
import styles from "../check-sheet.module.css";

export type LineAnswer = { readonly kind: string; readonly byName: string; readonly atMs: number; readonly reason: string | null };

const KIND_WORDS: Readonly<Record<string, string>> = { tick: "ticked", untick: "taken back", override: "overridden" };

/** Who did what on this line, and when. Nothing is ever removed from it. */
export function LineHistory({ history, timeZone }: { readonly history: readonly LineAnswer[]; readonly timeZone: string }) {
  if (history.length === 0) return null;
  return (
    <ol className={styles["history"]}>
      {history.map((answer) => (
        <li key={`${answer.atMs}-${answer.kind}`}>
          {KIND_WORDS[answer.kind] ?? answer.kind} by {answer.byName}, {showTime(Temporal.Instant.fromEpochMilliseconds(answer.atMs), timeZone)}
          {answer.reason !== null && `: ${answer.reason}`}
        </li>
      ))}
    </ol>
  );
}
