"use client";

import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import { useEarlyText } from "./use-early-value";
import styles from "./field.module.css";

type TextAreaProps = FieldProps &
  TextValueProps & {
    readonly rows?: number | undefined;
    readonly maxLength?: number | undefined;
    readonly placeholder?: string | undefined;
  };

export function TextArea(props: TextAreaProps) {
  const { rows = 4, maxLength, placeholder, value, onChange } = props;
  const ref = useEarlyText<HTMLTextAreaElement>(value, onChange);
  return (
    <FieldFrame {...props}>
      <textarea
        {...controlAttributes(props)}
        ref={ref}
        {...textValueAttributes<HTMLTextAreaElement>(props)}
        rows={rows}
        maxLength={maxLength}
        placeholder={placeholder}
        className={styles["control"]}
      />
    </FieldFrame>
  );
}
