"use client";

import { startTransition, useActionState, useState, type FormEvent } from "react";
import { Button } from "@/app/_components/button";
import { DateField } from "@/app/_components/date-field";
import { FieldGrid } from "@/app/_components/field-group";
import { FormProblems } from "@/app/_components/form-problems";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { type ActionState, FRESH } from "@/lib/contracts/action-state";
import type { CastingForm } from "@/lib/contracts/casting-fields";
import type { ReadMesh } from "@/lib/contracts/mesh";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { CostGround } from "@/lib/domain/tariff/starts";
import { AnswerPanel } from "./answer-panel";
import { AnswerSummary } from "./answer-summary";
import { CoolingFields } from "./cooling-fields";
import { fieldProps, type FieldSet } from "./field-set";
import { GlassFields } from "./glass-fields";
import { holdsLead } from "./holds-lead";
import { MouldFields } from "./mould-fields";
import { PieceFields } from "./piece-fields";
import { StillNeeded } from "./still-needed";
import { postedForm } from "./posted-form";
import { useCastingForm } from "./use-casting-form";
import { useLevelCost } from "./use-level-cost";
import styles from "./editor.module.css";

type CastingEditorProps = {
  readonly start: CastingForm;
  /** The mesh that the form names, when it was read before. */
  readonly mesh?: ReadMesh | null | undefined;
  /** The start has unsaved changes, carried here from a what-if. */
  readonly taken?: boolean | undefined;
  readonly kilns: readonly KilnToPlan[];
  readonly costs: CostGround;
  readonly action: (state: ActionState, form: FormData) => Promise<ActionState>;
  /** Posted beside the fields: the casting and its version, or the key of a new one. */
  readonly posted: Readonly<Record<string, string>>;
  readonly saveText: string;
  /** Where to look for a time, once it is saved. */
  readonly findTimeHref?: string | undefined;
  /** Today in the workshop, ISO. */
  readonly today: string;
};

/** The description of a casting, and beside it everything that follows from it. */
export function CastingEditor({ start, mesh = null, taken = false, kilns, costs, action, posted, saveText, findTimeHref, today }: CastingEditorProps) {
  const [state, dispatch, pending] = useActionState(action, FRESH);
  const [chosenKiln, setChosenKiln] = useState<string | null>(null);
  const { fields, live, answer, stale, working, failed, onFocus, changed, markSaved } = useCastingForm(start, kilns, state.problems, mesh);
  const levelCost = useLevelCost(fields.form, answer, chosenKiln);
  const save = (over: Readonly<Record<string, string>> = {}) => {
    markSaved();
    startTransition(() => dispatch(postedForm(fields.form, { ...posted, ...over })));
  };
  const onSubmit = (event: FormEvent) => {
    event.preventDefault();
    if (!pending) save();
  };
  const standing = state.problems.find((problem) => problem.code === "changed-meanwhile")?.data?.["version"];
  return (
    <div className={styles["editor"]}>
      <form className={styles["form"]} onSubmit={onSubmit} onFocus={onFocus} onBlur={onFocus} noValidate aria-label="The casting">
        <NameFields fields={fields} today={today} />
        <GlassFields fields={fields} />
        <PieceFields fields={fields} />
        <MouldFields fields={fields} />
        <CoolingFields fields={fields} levelCost={levelCost} />
        <div className={styles["save"]}>
          {taken && state.said === undefined && <Notice tone="needsYou">The what-if stands in the form. It is not saved yet.</Notice>}
          <FormProblems problems={fields.said} />
          {typeof standing === "number" && (
            <Notice tone="needsYou" action={<Button onClick={() => save({ version: String(standing) })}>Save mine over it</Button>}>
              Open the casting in another window to see what changed, or put yours in its place.
            </Notice>
          )}
          {state.said !== undefined && !changed && !pending && (
            <Notice tone="done" action={findTimeHref !== undefined && <LinkButton href={findTimeHref} look="main">Find time for it</LinkButton>}>
              {state.said}
            </Notice>
          )}
          <SubmitButton busy={pending} pendingText="Saving…">
            {saveText}
          </SubmitButton>
        </div>
      </form>
      <section className={styles["answer"]} id="answer" aria-label="The answer">
        <div className={styles["stickyTop"]}>
          <AnswerSummary answer={answer} stale={stale} working={working} chosenKiln={chosenKiln} />
        </div>
        <StillNeeded live={live} shape={fields.form["piece.shape"]} hasAnswer={answer !== null} />
        {failed && <Notice tone="trouble">The answer could not be worked out: a fault of this program, not of the casting. Saving and finding time still work.</Notice>}
        <AnswerPanel answer={answer} costs={costs} stale={stale} working={working} leadGlass={holdsLead(fields.form)} chosenKiln={chosenKiln} onChooseKiln={setChosenKiln} castingId={posted["castingId"]} />
      </section>
      <a href="#answer" className={styles["stickyBottom"]}>
        <AnswerSummary answer={answer} stale={stale} working={working} chosenKiln={chosenKiln} />
      </a>
    </div>
  );
}

function NameFields({ fields, today }: { readonly fields: FieldSet; readonly today: string }) {
  return (
    <FieldGrid>
      <TextField {...fieldProps(fields, "title")} label="Title" required maxLength={80} hint="What others read on the calendar and the kiln's door." />
      <DateField {...fieldProps(fields, "neededBy")} label="Needed by" min={today} hint="If there is a date. Times that miss it are marked." />
    </FieldGrid>
  );
}
