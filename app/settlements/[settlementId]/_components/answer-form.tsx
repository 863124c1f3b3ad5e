"use client";

import { useActionState, useState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextArea } from "@/app/_components/text-area";
import { FRESH } from "@/lib/contracts/action-state";
import { answerSettlementAction } from "../actions";
import styles from "../settlement.module.css";

type Props = { readonly settlementId: string; readonly words: string };

/** Agree, or object and say why. An answer may be changed, and moves nothing by itself. */
export function AnswerForm({ settlementId, words }: Props) {
  const [state, action] = useActionState(answerSettlementAction, FRESH);
  const [typed, setTyped] = useState(words);
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Your answer was not kept" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <input type="hidden" name="settlementId" value={settlementId} />
      <TextArea name="words" label="In your words" hint="Needed when you object, for instance: I cannot unload on that day." rows={3} maxLength={500} value={typed} onChange={setTyped} error={problemOf(state.problems, "words")} />
      <div className={styles["answers"]}>
        <SubmitButton name="answer" value="agree" pendingText="Keeping…">Agree</SubmitButton>
        <SubmitButton name="answer" value="object" look="plain" pendingText="Keeping…">Object</SubmitButton>
      </div>
    </form>
  );
}
