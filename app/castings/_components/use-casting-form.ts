import { useDeferredValue, useMemo, useState, type FocusEvent } from "react";
import type { CastingField, CastingForm } from "@/lib/contracts/casting-fields";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { Problem } from "@/lib/domain/refusal";
import type { FieldSet } from "./field-set";
import { inFormWords, isShown } from "./form-problem";
import { liveAnswer, type Answer, type LiveAnswer } from "./live-answer";

type FormState = {
  readonly fields: FieldSet & { readonly said: readonly Problem[] };
  readonly live: LiveAnswer;
  /** The last answer there was. */
  readonly answer: Answer | null;
  readonly stale: boolean;
  /** Tells which field is being typed in; its faults wait until it is left. */
  readonly onFocus: (event: FocusEvent) => void;
  /** Something was typed since it was last sent. */
  readonly changed: boolean;
  readonly markSaved: () => void;
};

/** Everything typed, kept in memory; the answer follows a moment behind so that typing stays quick. */
export function useCastingForm(start: CastingForm, kilns: readonly KilnToPlan[], refused: readonly Problem[]): FormState {
  const [form, setForm] = useState(start);
  const [sent, setSent] = useState<CastingForm | null>(null);
  const [typingIn, setTypingIn] = useState<string | null>(null);
  const settled = useDeferredValue(form);
  const live = useMemo(() => liveAnswer(settled, kilns), [settled, kilns]);
  const [last, setLast] = useState<Answer | null>(live.answer);
  if (live.answer !== null && live.answer !== last) setLast(live.answer);
  const answer = live.answer ?? last;
  // A refusal speaks of what was sent; it no longer holds for a field that was changed since.
  const said = refused
    .map((problem) => inFormWords(problem, form["piece.shape"]))
    .filter((problem) => sent === null || problem.field === undefined || !wasChanged(problem.field, form, sent));
  const errorOf = (field: CastingField) => {
    if (!isShown(field, form)) return undefined;
    const answered = said.find((problem) => problem.field === field);
    const found = live.problems.find((problem) => problem.field === field && problem.code !== "missing" && typingIn !== field);
    return (answered ?? found)?.message;
  };
  return {
    fields: { form, said, errorOf, set: (field, value) => setForm((now) => ({ ...now, [field]: value })) },
    live,
    answer,
    stale: live.answer === null && answer !== null,
    onFocus: (event) => setTypingIn(event.type === "focus" && event.target instanceof HTMLInputElement ? event.target.name : null),
    changed: sent !== null && sent !== form,
    markSaved: () => setSent(form),
  };
}

function wasChanged(field: string, form: CastingForm, sent: CastingForm): boolean {
  return Object.hasOwn(form, field) && form[field as CastingField] !== sent[field as CastingField];
}
