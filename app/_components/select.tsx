"use client";

import { classNames } from "./class-names";
import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import { useEarlyText } from "./use-early-value";
import styles from "./field.module.css";

export type Choice = { readonly value: string; readonly label: string; readonly disabled?: boolean | undefined };

type SelectProps = FieldProps &
  TextValueProps & {
    readonly choices: readonly Choice[];
    /** Shown first, with an empty value, e.g. "Choose a glass". */
    readonly prompt?: string | undefined;
  };

export function Select(props: SelectProps) {
  const { choices, prompt, value, defaultValue, onChange } = props;
  const ref = useEarlyText<HTMLSelectElement>(value, onChange);
  // A form action resets the form to what was first rendered; a new default has to be a new element.
  const key = value === undefined ? defaultValue : undefined;
  return (
    <FieldFrame {...props}>
      <select
        key={key}
        {...controlAttributes(props)}
        ref={ref}
        {...textValueAttributes<HTMLSelectElement>(props)}
        className={classNames(styles["control"], styles["select"])}
      >
        {prompt !== undefined && <option value="">{prompt}</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value} disabled={choice.disabled}>
            {choice.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
