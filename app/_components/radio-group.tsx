import type { ReactNode } from "react";
import { FieldNotes, type FieldProps, type TextValueProps } from "./field-frame";
import { FieldGroup } from "./field-group";
import { fieldId } from "./field-id";
import { RadioInput } from "./radio-input";
import field from "./field.module.css";
import styles from "./choice.module.css";

export type RadioChoice = {
  readonly value: string;
  readonly label: ReactNode;
  readonly hint?: ReactNode | undefined;
  readonly disabled?: boolean | undefined;
};

type RadioGroupProps = Omit<FieldProps, "optional"> & TextValueProps & { readonly choices: readonly RadioChoice[] };

/** One of a few, all in sight. The first choice carries the field's id, so that problems can lead to it. */
export function RadioGroup(props: RadioGroupProps) {
  const { name, label, hint, error, choices, id = fieldId(name) } = props;
  return (
    <FieldGroup title={label} small describedBy={error === undefined ? undefined : `${id}-error`}>
      <div className={styles["row"]}>
        {choices.map((choice, i) => (
          <Radio key={choice.value} {...props} choice={choice} id={i === 0 ? id : `${id}-${choice.value}`} />
        ))}
      </div>
      <FieldNotes id={id} hint={hint} error={error} />
    </FieldGroup>
  );
}

function Radio({ choice, id, name, value, defaultValue, onChange, required, disabled, error }: RadioGroupProps & { readonly choice: RadioChoice; readonly id: string }) {
  return (
    <label className={styles["choice"]} htmlFor={id}>
      <RadioInput
        id={id}
        name={name}
        value={choice.value}
        required={required}
        disabled={disabled ?? choice.disabled}
        aria-invalid={error !== undefined ? true : undefined}
        {...(value === undefined ? { defaultChecked: defaultValue === choice.value } : { checked: value === choice.value })}
        onChoose={onChange && (() => onChange(choice.value))}
        className={styles["box"]}
      />
      <span className={styles["text"]}>
        {choice.label}
        {choice.hint !== undefined && <span className={field["hint"]}> {choice.hint}</span>}
      </span>
    </label>
  );
}
