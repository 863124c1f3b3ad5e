"use client";

import { controlAttributes, FieldNotes, type FieldProps } from "./field-frame";
import { fieldId } from "./field-id";
import { useEarlyTick } from "./use-early-value";
import styles from "./choice.module.css";

type CheckboxProps = Omit<FieldProps, "optional"> & {
  /** What the form posts when ticked; nothing is posted otherwise. */
  readonly value?: string | undefined;
  readonly defaultChecked?: boolean | undefined;
  readonly checked?: boolean | undefined;
  readonly onChange?: ((checked: boolean) => void) | undefined;
};

export function Checkbox(props: CheckboxProps) {
  const { name, label, hint, error, value = "on", defaultChecked, checked, onChange, id = fieldId(name) } = props;
  const ref = useEarlyTick(checked, onChange);
  return (
    <div>
      <label className={styles["choice"]} htmlFor={id}>
        <input
          {...controlAttributes(props)}
          ref={ref}
          type="checkbox"
          value={value}
          {...(checked === undefined ? { defaultChecked } : { checked })}
          {...(onChange && { onChange: (event) => onChange(event.currentTarget.checked) })}
          className={styles["box"]}
        />
        <span className={styles["text"]}>{label}</span>
      </label>
      <div className={styles["notes"]}>
        <FieldNotes id={id} hint={hint} error={error} />
      </div>
    </div>
  );
}
