import { useDeferredValue, useMemo, useState, type FocusEvent } from "react";
import { useWork, type Worked } from "@/app/_work/use-work";
import type { CastingField, CastingForm } from "@/lib/contracts/casting-fields";
import type { ReadMesh } from "@/lib/contracts/mesh";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { Problem } from "@/lib/domain/refusal";
import type { FieldSet } from "./field-set";
import { inFormWords, isShown } from "./form-problem";
import { type Answer, type LiveAnswer, unreadable } from "./live-answer";

type FormState = {
  readonly fields: FieldSet & { readonly said: readonly Problem[] };
  readonly live: LiveAnswer;
  /** The last answer there was. */
  readonly answer: Answer | null;
  /** That answer is not, or not yet, to what stands in the form. */
  readonly stale: boolean;
  /** The answer to what stands in the form is being worked out. */
  readonly working: boolean;
  /** It cannot be worked out: a fault of ours. */
  readonly failed: boolean;
  /** Tells which field is being typed in; its faults wait until it is left. */
  readonly onFocus: (event: FocusEvent) => void;
  /** Something was typed since it was last sent. */
  readonly changed: boolean;
  readonly markSaved: () => void;
};

/** Everything typed, kept in memory; the answer is worked out beside the page and follows a moment behind, so that typing stays quick. */
export function useCastingForm(start: CastingForm, kilns: readonly KilnToPlan[], refused: readonly Problem[], startMesh: ReadMesh | null): FormState {
  const [form, setForm] = useState(start);
  const [mesh, setMesh] = useState(startMesh);
  const [sent, setSent] = useState<CastingForm | null>(null);
  const [typingIn, setTypingIn] = useState<string | null>(null);
  const settled = useDeferredValue(form);
  const unread = useMemo(() => unreadable(settled, mesh), [settled, mesh]);
  const question = useMemo(() => (unread === undefined ? { form: settled, kilns, mesh } : null), [unread, settled, kilns, mesh]);
  const worked = useWork("answer", question, 0);
  const live = unread ?? liveFrom(worked, settled);
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
    fields: {
      form, said, errorOf, mesh,
      set: (field, value) => setForm((now) => ({ ...now, [field]: value })),
      takeMesh: (read) => {
        setMesh(read);
        setForm((now) => ({ ...now, "piece.meshId": read?.meshId ?? "" }));
      },
    },
    live,
    answer,
    stale: live.answer === null && answer !== null,
    working: worked.busy,
    failed: worked.failed,
    onFocus: (event) => setTypingIn(event.type === "focus" && event.target instanceof HTMLInputElement ? event.target.name : null),
    changed: sent !== null && sent !== form,
    markSaved: () => setSent(form),
  };
}

/** What the worker last said of this form; until it says more, what it found wrong with fields that still stand as they did. */
function liveFrom({ last, busy, failed }: Worked<"answer">, form: CastingForm): LiveAnswer {
  if (last === null || failed) return { state: "working", answer: null, problems: [] };
  if (!busy) return last.answer;
  return { state: "working", answer: null, problems: last.answer.problems.filter(({ field }) => field !== undefined && !wasChanged(field, form, last.question.form)) };
}

function wasChanged(field: string, form: CastingForm, sent: CastingForm): boolean {
  return Object.hasOwn(form, field) && form[field as CastingField] !== sent[field as CastingField];
}
