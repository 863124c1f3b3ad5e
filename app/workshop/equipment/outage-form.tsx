"use client";

import Link from "next/link";
import { useActionState, useState } from "react";
import { DateField } from "@/app/_components/date-field";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import styles from "../workshop.module.css";
import { beginOutageAction } from "./actions";

/** Out of service from when to when, on the workshop's clock, and why. */
export function OutageForm({ equipmentId }: { readonly equipmentId: string }) {
  const [state, action] = useActionState(beginOutageAction, FRESH);
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  const [reason, setReason] = useState("");
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Nothing was entered" />
      {state.said !== undefined && (
        <Notice tone="done" action={<Link href={paths.clashes}>Clashes</Link>}>
          {state.said}
        </Notice>
      )}
      <input type="hidden" name="equipmentId" value={equipmentId} />
      <div className={styles["figures"]}>
        <DateField name="from" label="From" hint="Empty: now." withTime value={from} onChange={setFrom} error={problemOf(state.problems, "from")} />
        <DateField name="to" label="To" hint="Empty: until further notice." withTime value={to} onChange={setTo} error={problemOf(state.problems, "to")} />
      </div>
      <TextField name="reason" label="What is wrong with it" required value={reason} onChange={setReason} error={problemOf(state.problems, "reason")} />
      <SubmitButton look="plain">Take out of service</SubmitButton>
    </form>
  );
}
