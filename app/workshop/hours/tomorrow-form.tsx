"use client";

import { useActionState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { FRESH } from "@/lib/contracts/action-state";
import { showHour } from "@/lib/domain/time/tomorrow";
import styles from "../workshop.module.css";
import { setTomorrowHourAction } from "./actions";

const HOURS = Array.from({ length: 24 }, (_, hour) => ({ value: String(hour), label: showHour(hour) }));

/** From which hour of the day before everybody is mailed what is loaded and lifted. */
export function TomorrowForm({ hour }: { readonly hour: number }) {
  const [state, action] = useActionState(setTomorrowHourAction, FRESH);
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="The hour stays as it was" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      <div className={styles["figures"]}>
        <Select name="hour" label="Mailed the day before, from" choices={HOURS} defaultValue={String(hour)} error={problemOf(state.problems, "hour")} />
      </div>
      <SubmitButton look="plain" pendingText="Keeping…">
        Keep the hour
      </SubmitButton>
    </form>
  );
}
