import { classNames } from "@/app/_components/class-names";
import type { SeasonScreen } from "@/lib/server/queries/season";
import styles from "../season.module.css";

const STEPS = ["Reads the calendar", "Looks for plans", "Tries the best one out to the quarter hour"] as const;

/** The steps of planning a season, and which of them it is at. What the hours refuse leads back to the second. */
export function SeasonSteps({ screen }: { readonly screen: SeasonScreen }) {
  const at = stepOf(screen);
  return (
    <ol className={styles["steps"]} aria-label="Steps">
      {STEPS.map((step, i) => (
        <li key={step} className={classNames(styles["step"], i === at && styles["current"])} aria-current={i === at ? "step" : undefined}>
          {step}
          {i < at && <span className={styles["doneWord"]}> done</span>}
        </li>
      ))}
    </ol>
  );
}

/** −1 before it has begun. */
function stepOf({ state, runs }: SeasonScreen): number {
  if (state === "waiting") return -1;
  if (state === "placing") return 2;
  return (runs ?? 0) > 0 ? 1 : 0;
}
