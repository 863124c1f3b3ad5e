"use client";

import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { Button, type ButtonLook } from "./button";
import { useAnswering } from "./use-answering";
import styles from "./button.module.css";

type SubmitButtonProps = {
  readonly children: ReactNode;
  /** Said while the form is on its way, e.g. "Booking…". */
  readonly pendingText?: string | undefined;
  readonly look?: ButtonLook | undefined;
  readonly wide?: boolean | undefined;
  readonly disabled?: boolean | undefined;
  /** On its way, for a form that a script sends; a form with an action knows it by itself. */
  readonly busy?: boolean | undefined;
  /** For a form with several submit buttons: which one was pressed. */
  readonly name?: string | undefined;
  readonly value?: string | undefined;
};

/**
 * Submits the form around it, and refuses a second click while the first is on its way. Waits for the page's scripts:
 * a browser alone would lose what was typed when it is refused, or put a password into the address.
 */
export function SubmitButton(props: SubmitButtonProps) {
  const { children, pendingText = "Working…", look = "main", wide, disabled = false, busy = false, name, value } = props;
  const { pending, data } = useFormStatus();
  const answering = useAnswering();
  const mine = busy || (pending && (name === undefined || data.get(name) === value));
  return (
    <Button
      type="submit"
      look={look}
      wide={wide}
      name={name}
      value={value}
      disabled={disabled || !answering}
      data-coming={answering ? undefined : ""}
      aria-disabled={pending || busy || undefined}
      onClick={pending || busy ? (event) => event.preventDefault() : undefined}
    >
      {mine && <span className={styles["waiting"]} aria-hidden="true" />}
      <span aria-live="polite">{mine ? pendingText : children}</span>
    </Button>
  );
}
