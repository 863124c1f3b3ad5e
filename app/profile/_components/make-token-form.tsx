"use client";

import { useState, useTransition, type FormEvent } from "react";
import { Button } from "@/app/_components/button";
import { Checkbox } from "@/app/_components/checkbox";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { TextField } from "@/app/_components/text-field";
import { SCOPE_WORDS, SCOPES, type Scope } from "@/lib/domain/access/scopes";
import type { Problem } from "@/lib/domain/refusal";
import { makeTokenAction, type MadeToken } from "../actions";
import { ShownToken } from "./shown-token";
import styles from "./token.module.css";

/** A name and what it may do; the token is shown once, here and nowhere else. */
export function MakeTokenForm() {
  const [name, setName] = useState("");
  const [scopes, setScopes] = useState<readonly Scope[]>(["read"]);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [made, setMade] = useState<MadeToken>();
  const [pending, startTransition] = useTransition();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    startTransition(async () => {
      const outcome = await makeTokenAction(name, scopes);
      setProblems(outcome.ok ? [] : outcome.problems);
      setMade(outcome.ok ? outcome.value : undefined);
      if (outcome.ok) setName("");
    });
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate>
      <FormProblems problems={problems} title="No token was made" />
      {made !== undefined && <ShownToken key={made.tokenId} made={made} />}
      <TextField name="name" id="token-name" label="Name of the script" hint="So that you know which token to revoke one day." required maxLength={60} value={name} onChange={setName} error={problemOf(problems, "name")} />
      <fieldset className={styles["scopes"]}>
        <legend>It may</legend>
        {SCOPES.map((scope) => (
          <Checkbox
            key={scope}
            name="scopes"
            value={scope}
            id={`scope-${scope}`}
            label={SCOPE_WORDS[scope]}
            checked={scopes.includes(scope)}
            onChange={(on) => setScopes(SCOPES.filter((one) => (one === scope ? on : scopes.includes(one))))}
          />
        ))}
      </fieldset>
      <Button type="submit" look="main" disabled={pending}>
        {pending ? "Making a token…" : "Make a token"}
      </Button>
    </form>
  );
}
