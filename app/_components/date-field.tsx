"use client";

import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import { useEarlyText } from "./use-early-value";
import styles from "./field.module.css";

type DateFieldProps = FieldProps &
  TextValueProps & {
    /** ISO dates, e.g. "2027-03-14". */
    readonly min?: string | undefined;
    readonly max?: string | undefined;
    /** With a time of day: posts "2027-03-14T09:30", a wall-clock time in the workshop's zone. */
    readonly withTime?: boolean | undefined;
  };

/** The browser's own date field: posts an ISO date, opens the phone's own picker, works without script. */
export function DateField(props: DateFieldProps) {
  const { min, max, withTime = false, value, onChange } = props;
  const ref = useEarlyText<HTMLInputElement>(value, onChange);
  return (
    <FieldFrame {...props}>
      <input
        {...controlAttributes(props)}
        ref={ref}
        {...textValueAttributes<HTMLInputElement>(props)}
        type={withTime ? "datetime-local" : "date"}
        min={min}
        max={max}
        className={styles["control"]}
      />
    </FieldFrame>
  );
}
