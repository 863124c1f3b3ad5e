"use client";

import { signIn } from "next-auth/react";
import { useState, type FormEvent } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import type { Problem } from "@/lib/domain/refusal";
import styles from "./sign-in.module.css";

/** Address and password; both stay when they are refused. */
export function SignInForm({ from }: { readonly from: string }) {
  const [email, setEmail] = useState("");
  const [password, setPassword] = useState("");
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [busy, setBusy] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    const answer = await signIn("credentials", { email, password, redirect: false }).catch(() => undefined);
    // A whole page load, so that nothing of the signed-out pages stays behind.
    if (answer?.ok === true) window.location.assign(from);
    else {
      setProblems([problemOf(answer?.error)]);
      setBusy(false);
    }
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate>
      <FormProblems problems={problems} title="You are not signed in" />
      <TextField name="email" label="Email" type="email" autoComplete="username" required value={email} onChange={setEmail} />
      <TextField name="password" label="Password" type="password" autoComplete="current-password" required value={password} onChange={setPassword} />
      <SubmitButton busy={busy} pendingText="Signing in…">
        Sign in
      </SubmitButton>
    </form>
  );
}

function problemOf(error: string | null | undefined): Problem {
  if (error === undefined || error === null) return { code: "unreachable", message: "The workshop’s server cannot be reached. Try again in a moment." };
  const minutes = /^limited:(\d+)$/.exec(error)?.[1];
  if (minutes !== undefined) return { code: "limited", message: `Too many attempts failed. Wait ${minutes} minutes, or ask for a new password.` };
  const id = /^fault:(\w+)$/.exec(error)?.[1];
  if (id !== undefined) return { code: "fault", message: `Something went wrong here. Try again; if it stays, tell the manager the number ${id}.` };
  return { code: "wrong-sign-in", message: "This address and password do not belong together.", field: "email" };
}
