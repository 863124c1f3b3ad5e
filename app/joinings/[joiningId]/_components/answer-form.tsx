"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import styles from "@/app/_sharing/sharing.module.css";
import { FRESH } from "@/lib/contracts/action-state";
import { answerAction } from "../actions";

/** Yes or no. The last yes books it all, or says who stands in the way. */
export function AnswerForm({ joiningId }: { readonly joiningId: string }) {
  const [state, action] = useActionState(answerAction, FRESH);
  return (
    <form action={action} className={styles["form"]}>
      <input type="hidden" name="joiningId" value={joiningId} />
      <div className={styles["answers"]}>
        <SubmitButton name="answer" value="yes" pendingText="Booking…">Accept</SubmitButton>
        <SubmitButton name="answer" value="no" look="plain">Decline</SubmitButton>
      </div>
      <FormProblems problems={state.problems} title="Nothing was booked" />
    </form>
  );
}
