"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { MOST_HOLDS } from "@/lib/contracts/runs";
import { holdLimitAction } from "../actions";
import styles from "../asks.module.css";

/** How many runs a member holds at most without booking them. */
export function HoldLimit({ holdsEach }: { readonly holdsEach: number }) {
  const [state, action] = useActionState(holdLimitAction, FRESH);
  const choices = Array.from({ length: MOST_HOLDS + 1 }, (_, n) => ({ value: String(n), label: n === 0 ? "None: runs are booked, not held" : String(n) }));
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="The limit stays as it was" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <Select name="holdsEach" label="Runs a member may hold at once" choices={choices} defaultValue={String(holdsEach)} />
      <SubmitButton look="plain" pendingText="Keeping…">
        Keep the limit
      </SubmitButton>
    </form>
  );
}
