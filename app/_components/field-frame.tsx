import type { ReactNode } from "react";
import { fieldId } from "./field-id";
import styles from "./field.module.css";

/** What every field takes. Give `name` the dotted path of the input, so that problems find their field. */
export type FieldProps = {
  readonly name: string;
  readonly label: ReactNode;
  readonly hint?: ReactNode | undefined;
  /** What is wrong with the value; see problemOf. */
  readonly error?: string | undefined;
  readonly required?: boolean | undefined;
  /** Says "if known" after the label. */
  readonly optional?: boolean | undefined;
  readonly disabled?: boolean | undefined;
  /** Only when two forms on one page share a field name. */
  readonly id?: string | undefined;
};

type FieldFrameProps = FieldProps & { readonly children: ReactNode };

/** Label above, control, hint and error below, tied together for assistive technology. */
export function FieldFrame({ name, label, hint, error, optional, id = fieldId(name), children }: FieldFrameProps) {
  return (
    <div className={styles["field"]}>
      <label className={styles["label"]} htmlFor={id}>
        {label}
        {optional && <span className={styles["optional"]}> (if known)</span>}
      </label>
      {children}
      <FieldNotes id={id} hint={hint} error={error} />
    </div>
  );
}

export function FieldNotes({ id, hint, error }: { readonly id: string } & Pick<FieldProps, "hint" | "error">) {
  return (
    <>
      {hint !== undefined && (
        <div id={`${id}-hint`} className={styles["hint"]}>
          {hint}
        </div>
      )}
      {error !== undefined && (
        <div id={`${id}-error`} className={styles["error"]}>
          <span>{error}</span>
        </div>
      )}
    </>
  );
}

/** The attributes that tie a control to its label and notes. */
export function controlAttributes({ name, hint, error, required, disabled, id = fieldId(name) }: FieldProps) {
  const notes = [hint !== undefined && `${id}-hint`, error !== undefined && `${id}-error`].filter(Boolean);
  return {
    id,
    name,
    required,
    disabled,
    "aria-invalid": error !== undefined ? true : undefined,
    "aria-describedby": notes.length > 0 ? notes.join(" ") : undefined,
  };
}

/** Uncontrolled with `defaultValue` in a plain form; controlled with `value` and `onChange` in a client component. */
export type TextValueProps = {
  readonly defaultValue?: string | undefined;
  readonly value?: string | undefined;
  readonly onChange?: ((value: string) => void) | undefined;
};

/** React complains about `value={undefined}` beside `defaultValue`, so only what was given is passed on. */
export function textValueAttributes<E extends HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement>({
  defaultValue,
  value,
  onChange,
}: TextValueProps) {
  return {
    ...(value === undefined ? { defaultValue } : { value }),
    ...(onChange && { onChange: (event: { readonly currentTarget: E }) => onChange(event.currentTarget.value) }),
  };
}
