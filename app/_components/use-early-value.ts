import { useLayoutEffect, useRef, type RefObject } from "react";

type TextControl = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/**
 * A page can be filled in before its scripts have come. React then takes over fields whose state knows nothing of
 * that, and would put the old values back at the next change. These hooks tell the state, once, what stands on screen.
 * Several fields of a form tell it in one go: an `onChange` has to change what is, not what was when it was made.
 *
 * React itself puts back the text that a text area started with, before anything can be told; no text area here
 * starts with any.
 * @returns the ref for a control that holds text, dates and choices of a list among them
 */
export function useEarlyText<E extends TextControl>(value: string | undefined, onChange: ((value: string) => void) | undefined): RefObject<E | null> {
  const ref = useRef<E>(null);
  useLayoutEffect(() => {
    const early = ref.current?.value;
    if (value !== undefined && early !== undefined && early !== value) onChange?.(early);
    // Only as the page comes to life; React hears of every later change itself.
  }, []);
  useLayoutEffect(() => {
    if (value !== undefined && ref.current instanceof HTMLSelectElement) resetTo(ref.current, value);
  });
  return ref;
}

/** The same for a box to tick or one radio button of several; `checked` left out: it keeps its own state. */
export function useEarlyTick(checked: boolean | undefined, onChange: ((checked: boolean) => void) | undefined): RefObject<HTMLInputElement | null> {
  const ref = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    const early = ref.current?.checked;
    if (checked !== undefined && early !== undefined && early !== checked) onChange?.(early);
  }, []);
  useLayoutEffect(() => {
    // A form action resets its form when it is done, also when it was refused, to what React first rendered.
    if (checked !== undefined && ref.current !== null) ref.current.defaultChecked = checked;
  }, [checked]);
  return ref;
}

/** Makes the present choice the one that a reset of the form returns to; see useEarlyTick. */
function resetTo(select: HTMLSelectElement, value: string): void {
  for (const option of select.options) {
    const present = option.value === value;
    if (option.defaultSelected !== present) option.defaultSelected = present;
  }
}
