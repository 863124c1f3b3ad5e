"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { bookAction } from "../actions";

type Props = { readonly values: Readonly<Record<string, string>>; readonly label: string; readonly main: boolean };

/** Books all of a run or nothing; a refusal says who holds what and until when. */
export function BookForm({ values, label, main }: Props) {
  const [state, action] = useActionState(bookAction, FRESH);
  return (
    <form action={action}>
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <SubmitButton look={main ? "main" : "plain"} pendingText="Booking…">
        {main ? "Book this run" : <span aria-label={label}>Book this run</span>}
      </SubmitButton>
      <FormProblems problems={state.problems} title="Nothing was booked" />
    </form>
  );
}
