"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { stopReplanAction } from "../actions";

/** Ends the search with the best plan so far, or gives it up before it has begun. */
export function StopPlanning({ replanId, isStopping, look }: { readonly replanId: string; readonly isStopping: boolean; readonly look: string }) {
  const [state, action] = useActionState(stopReplanAction, FRESH);
  return (
    <form action={action}>
      <FormProblems problems={state.problems} title="It was not stopped" />
      <input type="hidden" name="replanId" value={replanId} />
      <SubmitButton look="plain" disabled={isStopping} pendingText="Stopping…">
        {isStopping ? "Stopping…" : look}
      </SubmitButton>
    </form>
  );
}
