"use client";

import { useActionState, useState } from "react";
import { DateField } from "@/app/_components/date-field";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Select, type Choice } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextArea } from "@/app/_components/text-area";
import { FRESH } from "@/lib/contracts/action-state";
import { IMPORTANCE } from "@/lib/contracts/runs";
import { askAction } from "../actions";
import styles from "../find-time.module.css";

type Props = { readonly castingId: string; readonly today: string; readonly kilns: readonly Choice[] };

/** Kiln, first day, how much hangs on it, and why. What was typed stays when the wish is refused. */
export function AskForm({ castingId, today, kilns }: Props) {
  const [state, action] = useActionState(askAction, FRESH);
  const [kilnId, setKilnId] = useState(kilns[0]?.value ?? "");
  const [fromDate, setFromDate] = useState(today);
  const [importance, setImportance] = useState("2");
  const [note, setNote] = useState("");
  return (
    <form action={action} className={styles["ask"]}>
      <FormProblems problems={state.problems} title="The wish was not kept" />
      <input type="hidden" name="castingId" value={castingId} />
      <Select name="kilnId" label="Kiln" choices={kilns} value={kilnId} onChange={setKilnId} error={problemOf(state.problems, "kilnId")} />
      <DateField name="fromDate" label="From" min={today} value={fromDate} onChange={setFromDate} required error={problemOf(state.problems, "fromDate")} />
      <Select
        name="importance"
        label="How much hangs on it"
        choices={IMPORTANCE.map(({ value, label }) => ({ value: String(value), label }))}
        value={importance}
        onChange={setImportance}
      />
      <TextArea name="note" label="Why these weeks" hint="The manager and the member who has them read it." rows={2} maxLength={500} value={note} onChange={setNote} />
      <SubmitButton look="plain" pendingText="Asking…">
        Ask for these weeks
      </SubmitButton>
    </form>
  );
}
