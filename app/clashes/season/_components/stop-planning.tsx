"use client";

import { useActionState } from "react";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { stopReplanAction } from "../actions";

/** Ends the search with the best plan so far. */
export function StopPlanning({ replanId, isStopping }: { readonly replanId: string; readonly isStopping: boolean }) {
  const [state, action] = useActionState(stopReplanAction, FRESH);
  return (
    <form action={action}>
      <FormProblems problems={state.problems} title="It was not stopped" />
      <input type="hidden" name="replanId" value={replanId} />
      <SubmitButton look="plain" disabled={isStopping} pendingText="Stopping…">
        {isStopping ? "Stopping…" : "Stop, and take the best so far"}
      </SubmitButton>
    </form>
  );
}
