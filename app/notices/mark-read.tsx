"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { markReadAction } from "./actions";

export function MarkRead({ upTo }: { readonly upTo: string }) {
  const [state, action] = useActionState(markReadAction, FRESH);
  return (
    <form action={action}>
      <FormProblems problems={state.problems} />
      <input type="hidden" name="upTo" value={upTo} />
      <SubmitButton look="plain" pendingText="Marking…">
        Mark all read
      </SubmitButton>
    </form>
  );
}
