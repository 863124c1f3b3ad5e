"use client";

import { IMPORTANCE } from "@/lib/contracts/runs";
import type { Problem } from "@/lib/domain/refusal";
import { DateField } from "./date-field";
import { problemOf } from "./field-id";
import { Select } from "./select";
import { TextArea } from "./text-area";

export type AskedFields = { readonly fromDate: string; readonly neededBy: string; readonly lateDays: string; readonly importance: string; readonly note: string };

type Props = {
  readonly typed: AskedFields;
  readonly change: (one: Partial<AskedFields>) => void;
  readonly today: string;
  readonly problems: readonly Problem[];
};

const LATE_DAYS = [0, 1, 2, 3, 5, 7, 10, 14, 21, 30, 45, 60];

/** From when on, by when, how late would still do, what hangs on it, and why. */
export function AskFields({ typed, change, today, problems }: Props) {
  return (
    <>
      <DateField name="fromDate" label="From" hint="Nothing of the run begins before this day." min={today} value={typed.fromDate} onChange={(fromDate) => change({ fromDate })} required error={problemOf(problems, "fromDate")} />
      <DateField name="neededBy" label="Ready by" min={today} value={typed.neededBy} onChange={(neededBy) => change({ neededBy })} error={problemOf(problems, "neededBy")} />
      <Select
        name="lateDays"
        label="Later would still do"
        choices={LATE_DAYS.map((days) => ({ value: String(days), label: days === 0 ? "No" : days === 1 ? "1 day" : `up to ${days} days` }))}
        value={typed.lateDays}
        onChange={(lateDays) => change({ lateDays })}
      />
      <Select
        name="importance"
        label="How much hangs on it"
        choices={IMPORTANCE.map(({ value, label }) => ({ value: String(value), label }))}
        value={typed.importance}
        onChange={(importance) => change({ importance })}
      />
      <TextArea name="note" label="Why it matters" hint="The manager reads it, and whoever has those weeks now." rows={2} maxLength={500} value={typed.note} onChange={(note) => change({ note })} />
    </>
  );
}
