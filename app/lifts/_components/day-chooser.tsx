import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { buttonClass } from "@/app/_components/button";
import { paths } from "@/lib/contracts/paths";
import styles from "../lifts.module.css";

/** The day before, any day, the day after. Works without script. */
export function DayChooser({ day, today }: { readonly day: string; readonly today: string }) {
  const date = Temporal.PlainDate.from(day);
  return (
    <form action={paths.lifts()} className={`${styles["chooser"]} no-print`}>
      <Link className={buttonClass("bare")} href={paths.lifts(date.subtract({ days: 1 }).toString())} aria-label="The day before">
        ←
      </Link>
      <input key={day} type="date" name="day" aria-label="Day" defaultValue={day} className={styles["date"]} />
      <button className={buttonClass()} type="submit">
        Show
      </button>
      <Link className={buttonClass("bare")} href={paths.lifts(date.add({ days: 1 }).toString())} aria-label="The day after">
        →
      </Link>
      {day !== today && (
        <Link className={buttonClass("bare")} href={paths.lifts(today)}>
          Today
        </Link>
      )}
    </form>
  );
}
