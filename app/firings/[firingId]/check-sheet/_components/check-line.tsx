"use client";

import { useState, useTransition } from "react";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { FormProblems } from "@/app/_components/form-problems";
import { useAnswering } from "@/app/_components/use-answering";
import type { Problem } from "@/lib/domain/refusal";
import { REASON_MIN_CHARS, type SheetMoment } from "@/lib/domain/safety/answer-check";
import type { ItemState } from "@/lib/domain/safety/check-sheet";
import { answerAction, overrideAction } from "../actions";
import { LineHistory, type LineAnswer } from "./line-history";
import styles from "../check-sheet.module.css";

const LEVEL_WORDS = { block: "stops the start", open: "stops the opening", remind: "reminder" } as const;

type Line = {
  readonly item: ItemState["item"];
  readonly status: ItemState["status"];
  readonly history: readonly LineAnswer[];
};

type CheckLineProps = {
  readonly firingId: string;
  readonly line: Line;
  readonly moment: SheetMoment;
  readonly mayOverride: boolean;
  readonly timeZone: string;
};

/** One item: a box to tick, what must be true, why, this firing's numbers, and who ticked it when. */
export function CheckLine({ firingId, line, moment, mayOverride, timeZone }: CheckLineProps) {
  const { item, status } = line;
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [pending, startTransition] = useTransition();
  // A box ticked before the scripts came would look ticked and be written down nowhere.
  const answering = useAnswering();
  const fixed = moment === "closed" || (item.level === "block" && moment === "running") || (item.level === "open" && moment === "before-start");
  const answer = (kind: "tick" | "untick") =>
    startTransition(async () => {
      const outcome = await answerAction(firingId, item.code, kind);
      setProblems(outcome.ok ? [] : outcome.problems);
    });
  const overridable = mayOverride && !fixed && item.level !== "remind" && status === "unanswered" && item.forbids === undefined;
  return (
    <li className={styles["line"]} data-status={status} data-code={item.code}>
      <label className={styles["box"]}>
        <input
          type="checkbox"
          checked={status !== "unanswered"}
          disabled={fixed || pending || !answering}
          autoComplete="off"
          aria-describedby={`why-${item.code}`}
          onChange={(event) => answer(event.currentTarget.checked ? "tick" : "untick")}
        />
        <span>
          <span className={styles["code"]}>{item.code}</span> {item.text}
        </span>
      </label>
      <div className={styles["beside"]}>
        <span className={styles["tags"]}>
          <Badge tone={item.level === "remind" ? "quiet" : "strong"}>{LEVEL_WORDS[item.level]}</Badge>
          {status === "overridden" && <Badge tone="trouble">overridden</Badge>}
          {pending && <span role="status">Saving…</span>}
        </span>
        {item.forbids !== undefined && <p className={styles["forbids"]}>{item.forbids}</p>}
        {item.detail !== undefined && <p>{item.detail}</p>}
        <p id={`why-${item.code}`} className={styles["why"]}>
          {item.why} <span className={styles["source"]}>({item.source})</span>
        </p>
        <LineHistory history={line.history} timeZone={timeZone} />
        <FormProblems problems={problems} />
        {overridable && (
          <div className="no-print">
            <ConfirmWithReason
              trigger="Override"
              look="bare"
              title={`Override ${item.code}?`}
              confirmText="Override it"
              values={{ firingId, code: item.code }}
              reasonLabel="Why may the firing go on without it?"
              reasonHint={`At least ${REASON_MIN_CHARS} characters; it stays on the sheet with your name.`}
              action={overrideAction}
            >
              <p>{item.text}</p>
            </ConfirmWithReason>
          </div>
        )}
      </div>
    </li>
  );
}
