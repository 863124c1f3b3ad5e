"use client";

import { useActionState, useState } from "react";
import { AskFields, type AskedFields } from "@/app/_components/ask-fields";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { changeAskAction } from "../actions";
import styles from "../asks.module.css";

type Props = {
  readonly askId: string;
  /** As it stands now. */
  readonly asked: AskedFields;
  readonly today: string;
};

/** Other days, another weight or another note; the kiln stays. */
export function ChangeAsk({ askId, asked, today }: Props) {
  const [state, action] = useActionState(changeAskAction, FRESH);
  const [typed, setTyped] = useState(asked);
  return (
    <details className={styles["change"]}>
      <summary>Change the ask</summary>
      <form action={action} className={styles["form"]}>
        <FormProblems problems={state.problems} title="The ask stays as it was" />
        {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
        <input type="hidden" name="askId" value={askId} />
        <AskFields typed={typed} change={(one) => setTyped((now) => ({ ...now, ...one }))} today={today} problems={state.problems} />
        <SubmitButton look="plain" pendingText="Changing…">
          Change it
        </SubmitButton>
      </form>
    </details>
  );
}
