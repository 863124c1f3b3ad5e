"use client";

import { useActionState, useState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH, type ActionState } from "@/lib/contracts/action-state";
import { MIN_PASSWORD } from "@/lib/contracts/password";
import styles from "./account.module.css";

type Props = {
  readonly action: (state: ActionState, form: FormData) => Promise<ActionState>;
  readonly values?: Readonly<Record<string, string>>;
  readonly submit: string;
  /** Asks for the present password as well. */
  readonly withOld?: boolean;
};

/** A new password; length is all that is asked of it. */
export function NewPasswordForm({ action, values = {}, submit, withOld = false }: Props) {
  const [state, send] = useActionState(action, FRESH);
  const [old, setOld] = useState("");
  const [password, setPassword] = useState("");
  return (
    <form action={send} className={styles["form"]}>
      <FormProblems problems={state.problems} />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {withOld && (
        <TextField name="oldPassword" label="Present password" type="password" autoComplete="current-password" required value={old} onChange={setOld} error={problemOf(state.problems, "oldPassword")} />
      )}
      <TextField
        name="password"
        label="New password"
        hint={`At least ${MIN_PASSWORD} characters; a sentence you remember will do.`}
        type="password"
        autoComplete="new-password"
        required
        value={password}
        onChange={setPassword}
        error={problemOf(state.problems, "password")}
      />
      <SubmitButton>{submit}</SubmitButton>
    </form>
  );
}
