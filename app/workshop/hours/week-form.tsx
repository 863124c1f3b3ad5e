"use client";

import { useState, useTransition, type FormEvent } from "react";
import { Button } from "@/app/_components/button";
import { Row } from "@/app/_components/page";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { NumberField } from "@/app/_components/number-field";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import type { Problem } from "@/lib/domain/refusal";
import styles from "../workshop.module.css";
import { setHoursAction, type Span } from "./actions";

const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"].map((label, at) => ({ value: String(at + 1), label }));

type Weekly = readonly { readonly weekday: number; readonly opensMin: number; readonly closesMin: number; readonly hands: number }[];

/** The spans of the week; a day may have several, and one without any is not staffed. */
export function WeekForm({ weekly }: { readonly weekly: Weekly }) {
  const [spans, setSpans] = useState<readonly Span[]>(() => weekly.map(spanOf));
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [said, setSaid] = useState<string>();
  const [pending, startTransition] = useTransition();
  const change = (at: number, over: Partial<Span>) => setSpans((now) => now.map((span, i) => (i === at ? { ...span, ...over } : span)));
  const submit = (event: FormEvent) => {
    event.preventDefault();
    startTransition(async () => {
      const outcome = await setHoursAction(spans);
      setProblems(outcome.ok ? [] : outcome.problems);
      setSaid(outcome.ok ? saidText(outcome.value.thinLifts) : undefined);
    });
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate>
      <FormProblems problems={problems} title="The hours stay as they were" />
      {said !== undefined && <Notice tone="done">{said}</Notice>}
      {spans.map((span, at) => (
        <div key={at} className={styles["span"]}>
          <Select name={`weekly.${at}.weekday`} label="Day" choices={DAYS} value={String(span.weekday)} onChange={(value) => change(at, { weekday: Number(value) })} />
          <TextField name={`weekly.${at}.opens`} label="From" type="time" value={span.opens} onChange={(opens) => change(at, { opens })} />
          <TextField name={`weekly.${at}.closes`} label="To" type="time" value={span.closes} onChange={(closes) => change(at, { closes })} />
          <NumberField name={`weekly.${at}.hands`} label="Hands on duty" whole value={span.hands} onChange={(hands) => change(at, { hands })} />
          <Button look="bare" onClick={() => setSpans(spans.filter((_, i) => i !== at))} aria-label={`Remove ${DAYS[span.weekday - 1]?.label ?? "this day"} ${span.opens}`}>
            Remove
          </Button>
        </div>
      ))}
      <Row>
        <Button onClick={() => setSpans([...spans, { weekday: nextDay(spans), opens: "09:00", closes: "17:00", hands: "2" }])}>Add hours</Button>
        <SubmitButton busy={pending} pendingText="Keeping…">
          Keep these hours
        </SubmitButton>
      </Row>
    </form>
  );
}

function spanOf({ weekday, opensMin, closesMin, hands }: Weekly[number]): Span {
  return { weekday, opens: clock(opensMin), closes: clock(closesMin % 1440), hands: String(hands) };
}

function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

function nextDay(spans: readonly Span[]): number {
  return [1, 2, 3, 4, 5, 6, 7].find((day) => !spans.some((span) => span.weekday === day)) ?? 1;
}

function saidText(thinLifts: number): string {
  if (thinLifts === 0) return "The hours are kept.";
  return `The hours are kept. ${thinLifts === 1 ? "One planned lift is" : `${thinLifts} planned lifts are`} now without enough people: see Clashes.`;
}
