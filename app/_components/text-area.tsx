import { controlAttributes, FieldFrame, textValueAttributes, type FieldProps, type TextValueProps } from "./field-frame";
import styles from "./field.module.css";

type TextAreaProps = FieldProps &
  TextValueProps & {
    readonly rows?: number | undefined;
    readonly maxLength?: number | undefined;
    readonly placeholder?: string | undefined;
  };

export function TextArea(props: TextAreaProps) {
  const { rows = 4, maxLength, placeholder } = props;
  return (
    <FieldFrame {...props}>
      <textarea
        {...controlAttributes(props)}
        {...textValueAttributes<HTMLTextAreaElement>(props)}
        rows={rows}
        maxLength={maxLength}
        placeholder={placeholder}
        className={styles["control"]}
      />
    </FieldFrame>
  );
}
