"use client";

import { useActionState, useState } from "react";
import { DateField } from "@/app/_components/date-field";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH, type ActionState } from "@/lib/contracts/action-state";
import styles from "../firing.module.css";

type Props = {
  readonly action: (state: ActionState, form: FormData) => Promise<ActionState>;
  readonly firingId: string;
  readonly field: string;
  readonly label: string;
  readonly value: string;
  readonly reasonLabel: string;
  readonly submit: string;
};

/** A wall-clock time of the workshop and a reason; what was typed stays when it is refused. */
export function TimeForm({ action, firingId, field, label, value, reasonLabel, submit }: Props) {
  const [state, send] = useActionState(action, FRESH);
  const [time, setTime] = useState(value);
  const [reason, setReason] = useState("");
  return (
    <form action={send} className={styles["form"]}>
      <FormProblems problems={state.problems} />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <input type="hidden" name="firingId" value={firingId} />
      <DateField name={field} label={label} withTime required value={time} onChange={setTime} error={problemOf(state.problems, field)} />
      <TextField name="reason" id={`${field}-reason`} label={reasonLabel} value={reason} onChange={setReason} error={problemOf(state.problems, "reason")} />
      <SubmitButton look="plain">{submit}</SubmitButton>
    </form>
  );
}
