"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { holdAction } from "../actions";

type Props = { readonly values: Readonly<Record<string, string>>; readonly label: string };

/** Holds all of a run for a day, while the wax is finished; a refusal says why not, and from when on. */
export function HoldForm({ values, label }: Props) {
  const [state, action] = useActionState(holdAction, FRESH);
  return (
    <form action={action}>
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <SubmitButton look="plain" pendingText="Holding…">
        <span aria-label={label}>Hold for 24 h</span>
      </SubmitButton>
      <FormProblems problems={state.problems} title="Nothing is held" />
    </form>
  );
}
