import Link from "next/link";
import type { Temporal } from "temporal-polyfill";
import { Button } from "@/app/_components/button";
import { calendarHref, type CalendarOf, type CalendarPlace, type CalendarView } from "@/lib/contracts/calendar";
import { heading } from "./calendar-days";
import styles from "./calendar.module.css";

type HeadProps = {
  readonly place: CalendarPlace;
  readonly day: Temporal.PlainDate;
  readonly onView: (view: CalendarView) => void;
  readonly onStep: (step: 1 | -1) => void;
  readonly onToday: () => void;
};

const VIEWS: readonly { readonly view: CalendarView; readonly label: string }[] = [
  { view: "month", label: "Month" },
  { view: "week", label: "Week" },
  { view: "day", label: "Day" },
];

const WHOSE: readonly { readonly of: CalendarOf; readonly label: string }[] = [
  { of: "all", label: "Whole workshop" },
  { of: "mine", label: "Mine" },
];

/** Which days, how many of them, and whose bookings. */
export function CalendarHead({ place, day, onView, onStep, onToday }: HeadProps) {
  const { view } = place;
  return (
    <div className={`${styles["head"]} no-print`}>
      <div className={styles["steps"]}>
        <Button onClick={() => onStep(-1)} aria-label={`Previous ${view}`}>
          ←
        </Button>
        <Button onClick={() => onStep(1)} aria-label={`Next ${view}`}>
          →
        </Button>
        <Button onClick={onToday}>Today</Button>
      </div>
      <h2 className={styles["heading"]} aria-live="polite">
        {heading(day, view)}
      </h2>
      <div className={styles["switches"]}>
        <div className={styles["switch"]} role="group" aria-label="Whose bookings">
          {WHOSE.map(({ of, label }) => (
            <Link key={of} href={calendarHref({ ...place, of })} replace scroll={false} aria-current={of === place.of ? "true" : undefined}>
              {label}
            </Link>
          ))}
        </div>
        <div className={styles["switch"]} role="group" aria-label="How many days">
          {VIEWS.map((one) => (
            <button key={one.view} type="button" aria-pressed={one.view === view} onClick={() => onView(one.view)}>
              {one.label}
            </button>
          ))}
        </div>
      </div>
    </div>
  );
}
