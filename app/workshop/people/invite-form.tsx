"use client";

import { useState, useTransition, type FormEvent } from "react";
import { Checkbox } from "@/app/_components/checkbox";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { ROLES } from "@/lib/domain/access/roles";
import type { Problem } from "@/lib/domain/refusal";
import { withRole } from "./with-role";
import styles from "../workshop.module.css";
import { inviteAction, type Invited } from "./actions";

/** Name, address and roles; the link is shown once, here and nowhere else. */
export function InviteForm() {
  const [name, setName] = useState("");
  const [email, setEmail] = useState("");
  const [roles, setRoles] = useState<readonly string[]>(["member"]);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [invited, setInvited] = useState<Invited>();
  const [pending, startTransition] = useTransition();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    startTransition(async () => {
      const outcome = await inviteAction(name, email, roles);
      setProblems(outcome.ok ? [] : outcome.problems);
      if (!outcome.ok) return;
      setInvited(outcome.value);
      setName("");
      setEmail("");
    });
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate>
      <FormProblems problems={problems} title="Nobody was invited" />
      {invited !== undefined && (
        <Notice tone="done">
          {invited.name} is invited. Their link, shown this once: <code className={styles["link"]}>{invited.link}</code>
        </Notice>
      )}
      <TextField name="name" label="Name" required value={name} onChange={setName} error={problemOf(problems, "name")} />
      <TextField name="email" label="Email" type="email" required value={email} onChange={setEmail} error={problemOf(problems, "email")} />
      <fieldset className={styles["checks"]}>
        <legend>As</legend>
        {ROLES.map((role) => (
          <Checkbox
            key={role}
            name="roles"
            value={role}
            id={`invite-${role}`}
            label={role}
            checked={roles.includes(role)}
            onChange={(on) => setRoles((now) => withRole(now, role, on))}
          />
        ))}
      </fieldset>
      <SubmitButton busy={pending} pendingText="Inviting…">
        Invite
      </SubmitButton>
    </form>
  );
}
