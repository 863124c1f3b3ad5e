"use client";

import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import { fieldId } from "./field-id";
import { useEarlyText } from "./use-early-value";
import styles from "./field.module.css";

type NumberFieldProps = FieldProps &
  Omit<TextValueProps, "value" | "defaultValue"> & {
    readonly defaultValue?: string | number | undefined;
    readonly value?: string | number | undefined;
    /** Shown after the number and read with it, e.g. "mm". */
    readonly unit?: string | undefined;
    /** Whole numbers only: a phone then shows digits without a decimal mark. */
    readonly whole?: boolean | undefined;
    readonly placeholder?: string | undefined;
  };

/**
 * A number as text: what was typed reaches the form unchanged, so a refusal can quote it. Browsers'
 * own number inputs drop what they cannot read, and change under the scroll wheel.
 */
export function NumberField(props: NumberFieldProps) {
  const { unit, whole = false, placeholder, value, defaultValue, onChange, id = fieldId(props.name) } = props;
  const attributes = controlAttributes(props);
  const text = { value: value?.toString(), defaultValue: defaultValue?.toString(), onChange };
  const ref = useEarlyText<HTMLInputElement>(text.value, onChange);
  const described = [attributes["aria-describedby"], unit && `${id}-unit`].filter(Boolean).join(" ");
  return (
    <FieldFrame {...props}>
      <span className={styles["withUnit"]}>
        <input
          {...attributes}
          ref={ref}
          {...textValueAttributes<HTMLInputElement>(text)}
          type="text"
          inputMode={whole ? "numeric" : "decimal"}
          autoComplete="off"
          placeholder={placeholder}
          aria-describedby={described || undefined}
          className={styles["control"]}
        />
        {unit !== undefined && (
          <span id={`${id}-unit`} className={styles["unit"]}>
            {unit}
          </span>
        )}
      </span>
    </FieldFrame>
  );
}
