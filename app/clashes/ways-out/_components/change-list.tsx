import { Badge } from "@/app/_components/badge";
import type { MoveChange } from "@/lib/domain/settling/clash/difference";
import { CHANGE_BADGES, changeWords } from "./way-words";
import styles from "../ways-out.module.css";

type Props = {
  readonly changes: readonly MoveChange[];
  readonly title: (change: MoveChange) => string;
  readonly place: (where: { readonly kilnId: string; readonly day: number }) => string;
  /** Why a run is no longer moved, where that is known. */
  readonly state?: (runId: string) => string | undefined;
};

/** Two settlements move by move. */
export function ChangeList({ changes, title, place, state }: Props) {
  return (
    <ul className={styles["asked"]} aria-label="What is different now">
      {changes.map((change) => (
        <li key={change.runId} className={styles["wish"]} data-change={change.change}>
          <span><strong>{title(change)}</strong>: {changeWords(change, place, state?.(change.runId))}</span>
          <Badge tone={change.change === "same" ? "plain" : "strong"}>{CHANGE_BADGES[change.change]}</Badge>
        </li>
      ))}
    </ul>
  );
}
