"use client";

import { useActionState } from "react";
import { DateField } from "@/app/_components/date-field";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { REPLAN_SECONDS } from "@/lib/contracts/replan";
import { askReplanAction } from "../actions";
import styles from "../season.module.css";

type Props = {
  /** What the fields begin with: ISO days and seconds. */
  readonly from: string;
  readonly to: string;
  readonly seconds: number;
  readonly earliest: string;
  readonly send: string;
  readonly look: "main" | "plain";
};

/** Which days are planned anew, and how long the search may take. */
export function SeasonForm({ from, to, seconds, earliest, send, look }: Props) {
  const [state, action] = useActionState(askReplanAction, FRESH);
  const choices = REPLAN_SECONDS.map((one) => ({ value: String(one.seconds), label: one.label }));
  return (
    <form action={action} className={styles["form"]}>
      <div className={styles["whole"]}>
        <FormProblems problems={state.problems} title="Nothing was begun" />
      </div>
      <DateField name="from" label="From" required min={earliest} defaultValue={from} error={problemOf(state.problems, "from")} />
      <DateField name="to" label="Up to and with" required min={earliest} defaultValue={to} hint="18 months at most." error={problemOf(state.problems, "to")} />
      <Select name="seconds" label="Look for" choices={choices} defaultValue={String(seconds)} hint="Longer mostly finds something better; it can be stopped at any time." />
      <div className={styles["whole"]}>
        <SubmitButton look={look} pendingText="Beginning…">{send}</SubmitButton>
      </div>
    </form>
  );
}
