"use client";

import { useActionState, useState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { NumberField } from "@/app/_components/number-field";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import styles from "../workshop.module.css";
import { powerAction } from "./actions";

export function PowerForm({ limitKw }: { readonly limitKw: number | null }) {
  const [state, action] = useActionState(powerAction, FRESH);
  const [kw, setKw] = useState(limitKw === null ? "" : String(limitKw));
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="The limit stays as it was" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <NumberField name="kw" label="Limit" unit="kW" hint="Empty: no limit was given." value={kw} onChange={setKw} error={problemOf(state.problems, "kw")} />
      <SubmitButton look="plain">Keep the limit</SubmitButton>
    </form>
  );
}
