import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Row } from "@/app/_components/page";
import { showDate, showInterval } from "@/lib/domain/time/show-time";
import type { ClashAsk } from "@/lib/server/rows/clash-asks";
import { bookAskAction, declineAskAction } from "../actions";
import { IMPORTANCE_WORDS } from "./clash-words";
import styles from "../clashes.module.css";

/** An ask, in a clash or not: book it once its weeks are free, or decline it with a reason. */
export function ClashAskRow({ ask, timeZone }: { readonly ask: ClashAsk; readonly timeZone: string }) {
  const from = Temporal.Instant.fromEpochMilliseconds(ask.fromMs);
  const to = Temporal.Instant.fromEpochMilliseconds(ask.toMs);
  const by = ask.neededBy === null ? "" : `, needed by ${showDate(Temporal.PlainDate.from(ask.neededBy))}`;
  return (
    <li className={styles["row"]} data-ask={ask.askId}>
      <div>
        {ask.title}, {ask.owner} <Badge>ask, {IMPORTANCE_WORDS[ask.importance] ?? "matters"}</Badge>
        <span className={styles["soft"]}>
          {ask.kiln}, {showInterval({ start: from, end: to }, timeZone)}
          {by}
          {ask.note === "" ? "" : `. “${ask.note}”`}
        </span>
      </div>
      <Row>
        <ConfirmWithReason
          trigger="Book the ask"
          title={`Book the weeks for ${ask.title}?`}
          confirmText="Book them"
          reason="none"
          values={{ askId: ask.askId, requestKey: randomUUID() }}
          action={bookAskAction}
        >
          <p>Books the whole run for {ask.owner} in the weeks that were asked for. Refused while anything stands in the way.</p>
        </ConfirmWithReason>
        <ConfirmWithReason
          trigger="Decline the ask"
          look="trouble"
          title={`Decline the ask for ${ask.title}?`}
          confirmText="Decline it"
          values={{ askId: ask.askId }}
          reasonHint={`${ask.owner} is told, with this reason. At least 10 characters.`}
          action={declineAskAction}
        />
      </Row>
    </li>
  );
}
