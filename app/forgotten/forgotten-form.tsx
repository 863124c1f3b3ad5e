"use client";

import { useActionState, useState } from "react";
import styles from "@/app/_account/account.module.css";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH } from "@/lib/contracts/action-state";
import { forgottenAction } from "./actions";

export function ForgottenForm() {
  const [state, action] = useActionState(forgottenAction, FRESH);
  const [email, setEmail] = useState("");
  return (
    <form action={action} className={styles["form"]}>
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <TextField name="email" label="Email" type="email" autoComplete="username" required value={email} onChange={setEmail} />
      <SubmitButton pendingText="Sending…">Mail me a link</SubmitButton>
    </form>
  );
}
