"use client";

import { signIn } from "next-auth/react";
import { useState, type FormEvent } from "react";
import styles from "@/app/_account/account.module.css";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { MIN_PASSWORD } from "@/lib/contracts/password";
import { paths } from "@/lib/contracts/paths";
import { refuse, type Problem } from "@/lib/domain/refusal";
import { acceptAction } from "./actions";

const UNREACHABLE: Problem = { code: "unreachable", message: "The workshop’s server did not answer. Try again in a moment." };

type Props = {
  readonly token: string;
  readonly email: string;
  /** "new": chooses a password. "known": confirms with the one they have. "signed-in": only confirms. */
  readonly known: "new" | "known" | "signed-in";
};

/** Joins the workshop and signs in to it. */
export function JoinForm({ token, email, known }: Props) {
  const [password, setPassword] = useState("");
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [busy, setBusy] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    setBusy(true);
    const outcome = await acceptAction(token, password).catch(() => refuse(UNREACHABLE));
    if (!outcome.ok) {
      setProblems(outcome.problems);
      setBusy(false);
      return;
    }
    const signedIn = known === "signed-in" || (await signIn("credentials", { email, password, redirect: false }))?.ok === true;
    window.location.assign(signedIn ? paths.home : paths.signIn);
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate>
      <FormProblems problems={problems} title="You have not joined yet" />
      {known !== "signed-in" && (
        <TextField
          name="password"
          label={known === "new" ? "Choose a password" : "Your password"}
          hint={known === "new" ? `At least ${MIN_PASSWORD} characters; a sentence you remember will do.` : "You have an account with this address already; its password confirms that it is you."}
          type="password"
          autoComplete={known === "new" ? "new-password" : "current-password"}
          required
          value={password}
          onChange={setPassword}
          error={problemOf(problems, "password")}
        />
      )}
      <SubmitButton busy={busy} pendingText="Joining…">
        Join the workshop
      </SubmitButton>
    </form>
  );
}
