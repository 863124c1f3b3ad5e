"use client";

import { useActionState, useState } from "react";
import { Checkbox } from "@/app/_components/checkbox";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import type { KilnToShow } from "@/lib/contracts/people";
import styles from "../workshop.module.css";
import { inductionsAction } from "./actions";
import { withRole } from "./with-role";

type Props = { readonly memberId: string; readonly given: readonly string[]; readonly kilns: readonly KilnToShow[]; readonly disabled: boolean };

/** Which kilns a person was shown; only those that need it are listed. */
export function InductionsForm({ memberId, given, kilns, disabled }: Props) {
  const [state, action] = useActionState(inductionsAction, FRESH);
  const [ticked, setTicked] = useState(given);
  const changed = kilns.some(({ kilnId }) => ticked.includes(kilnId) !== given.includes(kilnId));
  return (
    <form action={action}>
      <FormProblems problems={state.problems} />
      <input type="hidden" name="memberId" value={memberId} />
      <fieldset className={styles["checks"]} disabled={disabled}>
        <legend className="sr-only">Inductions</legend>
        {kilns.map(({ kilnId, name }) => (
          <Checkbox
            key={kilnId}
            name="kilnIds"
            value={kilnId}
            id={`${memberId}-${kilnId}`}
            label={name}
            checked={ticked.includes(kilnId)}
            onChange={(on) => setTicked((now) => withRole(now, kilnId, on))}
          />
        ))}
      </fieldset>
      {changed && <SubmitButton look="plain">Keep these inductions</SubmitButton>}
    </form>
  );
}
