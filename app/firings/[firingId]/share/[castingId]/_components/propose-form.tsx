"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import styles from "@/app/_sharing/sharing.module.css";
import { FRESH } from "@/lib/contracts/action-state";
import { proposeAction } from "../actions";

type Props = { readonly values: Readonly<Record<string, string>>; readonly submit: string };

/** Sends the proposal as it is shown; the plans are joined once more, so it may take a moment. */
export function ProposeForm({ values, submit }: Props) {
  const [state, action] = useActionState(proposeAction, FRESH);
  return (
    <form action={action} className={styles["form"]}>
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <SubmitButton pendingText="Joining the plans…">{submit}</SubmitButton>
      <FormProblems problems={state.problems} title="Nothing was proposed" />
    </form>
  );
}
