"use client";

import type { HTMLInputTypeAttribute } from "react";
import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import { classNames } from "./class-names";
import { useEarlyText } from "./use-early-value";
import styles from "./field.module.css";

type TextFieldProps = FieldProps &
  TextValueProps & {
    readonly type?: Extract<HTMLInputTypeAttribute, "text" | "email" | "password" | "search" | "tel" | "url" | "time"> | undefined;
    readonly autoComplete?: string | undefined;
    readonly placeholder?: string | undefined;
    readonly maxLength?: number | undefined;
  };

export function TextField(props: TextFieldProps) {
  const { type = "text", autoComplete, placeholder, maxLength, value, onChange } = props;
  const ref = useEarlyText<HTMLInputElement>(value, onChange);
  return (
    <FieldFrame {...props}>
      <input
        {...controlAttributes(props)}
        ref={ref}
        {...textValueAttributes<HTMLInputElement>(props)}
        type={type}
        autoComplete={autoComplete}
        placeholder={placeholder}
        maxLength={maxLength}
        className={classNames(styles["control"])}
      />
    </FieldFrame>
  );
}
