"use client";

import { useActionState, useState } from "react";
import { Checkbox } from "@/app/_components/checkbox";
import { FieldGroup } from "@/app/_components/field-group";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { DAILY, type MailKind } from "@/lib/contracts/told";
import { chooseMailAction } from "../actions";
import styles from "./token.module.css";

type Choice = { readonly kind: MailKind; readonly mailed: boolean; readonly label: string };
type Props = { readonly choices: readonly Choice[]; readonly tomorrowHint: string };

export function MailForm({ choices, tomorrowHint }: Props) {
  const [state, action] = useActionState(chooseMailAction, FRESH);
  const [ticked, setTicked] = useState<readonly MailKind[]>(choices.filter(({ mailed }) => mailed).map(({ kind }) => kind));
  const tick = (kind: MailKind, on: boolean) => setTicked((now) => (on ? [...now.filter((one) => one !== kind), kind] : now.filter((one) => one !== kind)));
  const boxes = (some: readonly Choice[]) =>
    some.map(({ kind, label }) => (
      <Checkbox key={kind} name="mailed" value={kind} id={`mailed-${kind}`} label={label} checked={ticked.includes(kind)} onChange={(on) => tick(kind, on)} />
    ));
  const daily = choices.filter(({ kind }) => kind in DAILY);
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Nothing was changed" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <FieldGroup small title="When it happens">{boxes(choices.filter((one) => !daily.includes(one)))}</FieldGroup>
      <FieldGroup small title="Every day" lead={tomorrowHint}>{boxes(daily)}</FieldGroup>
      <SubmitButton look="plain" pendingText="Keeping it…">Keep this choice</SubmitButton>
    </form>
  );
}
