import { numberText } from "@/app/_components/number-text";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import { type Answer, shownKiln } from "./live-answer";
import styles from "./answer.module.css";

type AnswerSummaryProps = { readonly answer: Answer | null; readonly stale: boolean; readonly working: boolean; readonly chosenKiln: string | null };

/** The answer in one line, always in sight. */
export function AnswerSummary({ answer, stale, working, chosenKiln }: AnswerSummaryProps) {
  if (answer === null) return <p className={styles["line"]}>{working ? "Working out the answer…" : "No answer yet: choose a glass and give the size."}</p>;
  const shown = shownKiln(answer, chosenKiln);
  const plan = shown?.plan ?? answer.general;
  const fits = answer.kilns.filter((one) => one.reasons.length === 0).length;
  return (
    <p className={styles["line"]}>
      <strong>{numberText(kilnWeeksOfHours(plan.reservation.hours), 1)} kiln-weeks</strong> {shown === undefined ? "" : `in ${shown.kiln.name}`}
      <span className={styles["aside"]}>
        {numberText(plan.glass.chargeKg, 1)} kg glass · {fits === 0 ? "fits no kiln" : `fits ${fits} of ${answer.kilns.length} kilns`}
        {stale && (working ? " · working out the change" : " · before the last change")}
      </span>
    </p>
  );
}
