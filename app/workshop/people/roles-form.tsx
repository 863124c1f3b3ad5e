"use client";

import { useActionState, useState } from "react";
import { Checkbox } from "@/app/_components/checkbox";
import { FormProblems } from "@/app/_components/form-problems";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { ROLES } from "@/lib/domain/access/roles";
import styles from "../workshop.module.css";
import { rolesAction } from "./actions";
import { withRole } from "./with-role";

type Props = { readonly memberId: string; readonly roles: readonly string[]; readonly disabled: boolean };

export function RolesForm({ memberId, roles, disabled }: Props) {
  const [state, action] = useActionState(rolesAction, FRESH);
  const [ticked, setTicked] = useState(roles);
  const changed = ROLES.some((role) => ticked.includes(role) !== roles.includes(role));
  return (
    <form action={action}>
      <FormProblems problems={state.problems} />
      <input type="hidden" name="memberId" value={memberId} />
      <fieldset className={styles["checks"]} disabled={disabled}>
        <legend className="sr-only">Roles</legend>
        {ROLES.map((role) => (
          <Checkbox
            key={role}
            name="roles"
            value={role}
            id={`${memberId}-${role}`}
            label={role}
            checked={ticked.includes(role)}
            onChange={(on) => setTicked((now) => withRole(now, role, on))}
          />
        ))}
      </fieldset>
      {changed && <SubmitButton look="plain">Keep these roles</SubmitButton>}
    </form>
  );
}
