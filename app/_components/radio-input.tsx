"use client";

import type { InputHTMLAttributes } from "react";
import { useEarlyTick } from "./use-early-value";

type RadioInputProps = Omit<InputHTMLAttributes<HTMLInputElement>, "type" | "onChange"> & {
  readonly onChoose?: (() => void) | undefined;
};

/** One radio button. Controlled with `checked` and `onChoose`; what was chosen before the scripts came counts. */
export function RadioInput({ onChoose, ...rest }: RadioInputProps) {
  const ref = useEarlyTick(rest.checked, (on) => {
    if (on) onChoose?.();
  });
  return <input {...rest} ref={ref} type="radio" {...(onChoose && { onChange: onChoose })} />;
}
