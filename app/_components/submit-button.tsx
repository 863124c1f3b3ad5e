"use client";

import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { Button, type ButtonLook } from "./button";
import styles from "./button.module.css";

type SubmitButtonProps = {
  readonly children: ReactNode;
  /** Said while the form is on its way, e.g. "Booking…". */
  readonly pendingText?: string | undefined;
  readonly look?: ButtonLook | undefined;
  readonly wide?: boolean | undefined;
  readonly disabled?: boolean | undefined;
  /** For a form with several submit buttons: which one was pressed. */
  readonly name?: string | undefined;
  readonly value?: string | undefined;
};

/** Submits the form around it and refuses a second click while the first is on its way. */
export function SubmitButton(props: SubmitButtonProps) {
  const { children, pendingText = "Working…", look = "main", wide, disabled = false, name, value } = props;
  const { pending, data } = useFormStatus();
  const mine = pending && (name === undefined || data.get(name) === value);
  return (
    <Button
      type="submit"
      look={look}
      wide={wide}
      name={name}
      value={value}
      disabled={disabled}
      aria-disabled={pending || undefined}
      onClick={pending ? (event) => event.preventDefault() : undefined}
    >
      {mine && <span className={styles["waiting"]} aria-hidden="true" />}
      <span aria-live="polite">{mine ? pendingText : children}</span>
    </Button>
  );
}
