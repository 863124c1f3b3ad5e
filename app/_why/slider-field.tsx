import { NumberField } from "@/app/_components/number-field";
import styles from "./why-page.module.css";

type SliderFieldProps = {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  readonly value: string;
  readonly reach: readonly [least: number, most: number];
  readonly step: number;
  readonly onChange: (value: string) => void;
  readonly error?: string | undefined;
  readonly hint?: string | undefined;
};

/** A number to type, and a slider over the part of its range that is worth trying. */
export function SliderField({ name, label, unit, value, reach: [least, most], step, onChange, error, hint }: SliderFieldProps) {
  const typed = Number(value.replace(",", "."));
  return (
    <div className={styles["slider"]}>
      <NumberField name={name} label={label} unit={unit} value={value} onChange={onChange} error={error} hint={hint} />
      <input
        type="range" aria-label={`${label}, slider`} min={least} max={most} step={step} className={styles["range"]}
        value={Number.isFinite(typed) ? Math.min(most, Math.max(least, typed)) : least}
        aria-valuetext={`${value} ${unit}`}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    </div>
  );
}
