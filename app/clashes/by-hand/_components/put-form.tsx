import { Button } from "@/app/_components/button";
import { DateField } from "@/app/_components/date-field";
import { Select } from "@/app/_components/select";
import { byHandParams, type ByHand } from "@/lib/contracts/by-hand";
import { paths } from "@/lib/contracts/paths";
import styles from "../by-hand.module.css";

type Props = {
  readonly edited: ByHand;
  readonly titles: ReadonlyMap<string, string>;
  readonly kilns: ReadonlyMap<string, string>;
  /** The first day there is. */
  readonly today: string;
  /** Where several of these are on a page. */
  readonly id?: string | undefined;
};

/** Puts one run on a kiln and a day. All of it stands in the address, so it needs no script. */
export function PutForm({ edited, titles, kilns, today, id = "put" }: Props) {
  const choices = (names: ReadonlyMap<string, string>) => [...names].map(([value, label]) => ({ value, label })).toSorted((a, b) => a.label.localeCompare(b.label, "en"));
  return (
    <form action={paths.byHand} method="get" className={styles["form"]}>
      {byHandParams(edited).map(([name, value]) => <input key={value} type="hidden" name={name} value={value} />)}
      <Select name="run" id={`${id}-run`} label="Put" required prompt="Choose a run" choices={choices(titles)} defaultValue="" />
      <Select name="kiln" id={`${id}-kiln`} label="on" required prompt="Choose a kiln" choices={choices(kilns)} defaultValue="" />
      <DateField name="day" id={`${id}-day`} label="loaded on" required min={today} />
      <Button type="submit">See what it costs</Button>
    </form>
  );
}
