"use client";

import { useActionState, useState } from "react";
import { DateField } from "@/app/_components/date-field";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH } from "@/lib/contracts/action-state";
import styles from "../workshop.module.css";
import { addClosureAction } from "./actions";

export function ClosureForm({ today }: { readonly today: string }) {
  const [state, action] = useActionState(addClosureAction, FRESH);
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [reason, setReason] = useState("");
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="No closure was added" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <div className={styles["figures"]}>
        <DateField name="from" label="First day closed" min={today} required value={from} onChange={setFrom} error={problemOf(state.problems, "from")} />
        <DateField name="to" label="Last day closed" hint="Empty: one day only." min={today} value={to} onChange={setTo} error={problemOf(state.problems, "to")} />
      </div>
      <TextField name="reason" label="Why" required value={reason} onChange={setReason} error={problemOf(state.problems, "reason")} />
      <SubmitButton look="plain">Add the closure</SubmitButton>
    </form>
  );
}
