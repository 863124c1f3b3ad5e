"use client";

import { useId, useState, type ReactNode } from "react";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import { Button, type ButtonLook } from "./button";
import { Dialog, DialogActions } from "./dialog";
import styles from "./dialog.module.css";
import { problemOf } from "./field-id";
import { FormProblems } from "./form-problems";
import { SubmitButton } from "./submit-button";
import { TextArea } from "./text-area";

type ConfirmWithReasonProps = {
  /** On the button that opens the question, e.g. "Release the run". */
  readonly trigger: ReactNode;
  readonly look?: ButtonLook | undefined;
  readonly title: string;
  /** What will happen, with its consequences. */
  readonly children?: ReactNode;
  readonly confirmText: string;
  readonly cancelText?: string | undefined;
  /** Posted beside `reason`, e.g. { firingId }. */
  readonly values?: Readonly<Record<string, string>> | undefined;
  readonly reasonLabel?: string | undefined;
  readonly reasonHint?: string | undefined;
  /** "asked": a reason must be given (the default); "offered": it may; "none": a plain confirmation. */
  readonly reason?: "asked" | "offered" | "none" | undefined;
  /** A server action. A refusal stays in the dialog; anything else closes it. */
  readonly action: (form: FormData) => Promise<Outcome<unknown> | undefined>;
  readonly disabled?: boolean | undefined;
};

/** A button that asks before it acts, and takes down why. */
export function ConfirmWithReason(props: ConfirmWithReasonProps) {
  const { trigger, look, title, action, disabled } = props;
  const [open, setOpen] = useState(false);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const close = () => {
    setOpen(false);
    setProblems([]);
  };
  const send = async (form: FormData) => {
    const outcome = await action(form);
    if (outcome !== undefined && !outcome.ok) setProblems(outcome.problems);
    else close();
  };
  return (
    <>
      <Button look={look} disabled={disabled} aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {trigger}
      </Button>
      <Dialog title={title} open={open} onClose={close} mustAnswer>
        <ReasonForm {...props} problems={problems} send={send} close={close} />
      </Dialog>
    </>
  );
}

type ReasonFormProps = ConfirmWithReasonProps & {
  readonly problems: readonly Problem[];
  readonly send: (form: FormData) => Promise<void>;
  readonly close: () => void;
};

function ReasonForm(props: ReasonFormProps) {
  const { children, values = {}, reason = "asked", look, confirmText, cancelText = "Leave it as it is" } = props;
  const { problems, send, close } = props;
  // A refused form comes back empty unless what was typed is kept here.
  const [typed, setTyped] = useState("");
  // The page behind may have a field of the same name; this one's label must not lead there.
  const reasonId = useId();
  return (
    <form action={send} className={styles["form"]}>
      <FormProblems problems={problems.map(withoutField)} />
      {children}
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {reason !== "none" && (
        <TextArea
          name="reason"
          id={reasonId}
          label={props.reasonLabel ?? (reason === "asked" ? "Reason" : "Reason (if you like)")}
          hint={props.reasonHint ?? "Everybody concerned can read it."}
          required={reason === "asked"}
          error={problemOf(problems, "reason")}
          value={typed}
          onChange={setTyped}
          rows={3}
          maxLength={500}
        />
      )}
      <DialogActions>
        <Button look="bare" onClick={close}>
          {cancelText}
        </Button>
        <SubmitButton look={look === "trouble" ? "trouble" : "main"}>{confirmText}</SubmitButton>
      </DialogActions>
    </form>
  );
}

/** A dialog has one field at most, and it is in sight: nothing has to lead to it. */
function withoutField({ field: _field, ...problem }: Problem): Problem {
  return problem;
}
