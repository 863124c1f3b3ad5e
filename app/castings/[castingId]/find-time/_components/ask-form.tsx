"use client";

import { useActionState, useState } from "react";
import { AskFields, type AskedFields } from "@/app/_components/ask-fields";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Select, type Choice } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { askAction } from "../actions";
import styles from "../find-time.module.css";

type Props = { readonly castingId: string; readonly today: string; readonly neededBy: string | null; readonly kilns: readonly Choice[] };

/** Which kiln, from when on, by when, how much hangs on it, and why. What was typed stays when the ask is refused. */
export function AskForm({ castingId, today, neededBy, kilns }: Props) {
  const [state, action] = useActionState(askAction, FRESH);
  const [kilnId, setKilnId] = useState("");
  const [typed, setTyped] = useState<AskedFields>({ fromDate: today, neededBy: neededBy ?? "", lateDays: "0", importance: "2", note: "" });
  return (
    <form action={action} className={styles["ask"]}>
      <FormProblems problems={state.problems} title="The ask was not kept" />
      <input type="hidden" name="castingId" value={castingId} />
      <Select name="kilnId" label="Kiln" prompt="Any kiln that fits" choices={kilns} value={kilnId} onChange={setKilnId} error={problemOf(state.problems, "kilnId")} />
      <AskFields typed={typed} change={(one) => setTyped((now) => ({ ...now, ...one }))} today={today} problems={state.problems} />
      <SubmitButton look="plain" pendingText="Asking…">
        Ask for time
      </SubmitButton>
    </form>
  );
}
