import { Button } from "@/app/_components/button";
import { Checkbox } from "@/app/_components/checkbox";
import { fieldId, problemOf } from "@/app/_components/field-id";
import { NumberField } from "@/app/_components/number-field";
import { TextField } from "@/app/_components/text-field";
import type { Problem } from "@/lib/domain/refusal";
import { WEEKDAY_NAMES } from "@/lib/domain/tariff/week-words";
import styles from "../workshop.module.css";
import type { TypedBand } from "./actions";

type BandFieldsProps = {
  readonly at: number;
  readonly band: TypedBand;
  readonly currency: string;
  readonly problems: readonly Problem[];
  /** Called with how the band changes from what it is by then: several fields may change in one go. */
  readonly onChange: (change: (now: TypedBand) => Partial<TypedBand>) => void;
  readonly onRemove: () => void;
};

/** One band: its name, price, hours and days. */
export function BandFields({ at, band, currency, problems, onChange, onRemove }: BandFieldsProps) {
  const name = (field: string) => `bands.${at}.${field}`;
  const error = (field: string) => problemOf(problems, name(field));
  return (
    <fieldset className={styles["band"]}>
      <legend className="sr-only">{band.name === "" ? `Band ${at + 1}` : band.name}</legend>
      <div className={styles["bandFields"]}>
        <TextField name={name("name")} label="Band" maxLength={40} value={band.name} onChange={(text) => onChange(() => ({ name: text }))} error={error("name")} />
        <NumberField name={name("price")} label="Price of a kWh" unit={currency} value={band.price} onChange={(price) => onChange(() => ({ price }))} error={error("price")} />
        <TextField name={name("from")} label="From" type="time" value={band.from} onChange={(from) => onChange(() => ({ from }))} error={error("from")} />
        <TextField name={name("to")} label="To" type="time" hint="Midnight is the end of the day." value={band.to} onChange={(to) => onChange(() => ({ to }))} error={error("to")} />
      </div>
      <fieldset className={styles["checks"]} id={fieldId(name("weekdays"))}>
        <legend>Days</legend>
        {WEEKDAY_NAMES.map((label, i) => (
          <Checkbox key={label} name={name(`weekdays.${i + 1}`)} label={label.slice(0, 3)} checked={band.weekdays.includes(i + 1)} onChange={(on) => onChange((now) => ({ weekdays: withDay(now.weekdays, i + 1, on) }))} />
        ))}
      </fieldset>
      <Button look="bare" onClick={onRemove} aria-label={`Remove ${band.name === "" ? `band ${at + 1}` : band.name} ${band.from}`}>
        Remove
      </Button>
    </fieldset>
  );
}

function withDay(weekdays: readonly number[], weekday: number, on: boolean): readonly number[] {
  const others = weekdays.filter((day) => day !== weekday);
  return on ? [...others, weekday].sort() : others;
}
