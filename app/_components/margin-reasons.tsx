import { numberText } from "@/app/_components/number-text";
import { learnedSentence } from "@/lib/domain/firing/learn-margin";
import type { CastingPlan, MarginItem } from "@/lib/domain/firing/casting-plan";
import { showHours, showKilnWeeks } from "@/lib/domain/time/show-time";
import styles from "./margin-reasons.module.css";

type MarginReasonsProps = { readonly reservation: CastingPlan["reservation"] };

/** What is held for a firing: its program, and each part of the margin with its reason and the mark of its source. */
export function MarginReasons({ reservation }: MarginReasonsProps) {
  const { hours, marginHours, marginWhy, margin } = reservation;
  return (
    <>
      <p>
        {numberText(hours - marginHours)} h of firing and {numberText(marginHours)} h of margin make {numberText(hours)} h: {showHours(hours)}, {showKilnWeeks(hours)}.
      </p>
      {margin === undefined ? (
        <p>Margin: {marginWhy}</p>
      ) : (
        <>
          <p>{margin.learnedFrom === undefined ? "The margin is the usual one:" : `${learnedSentence(margin.learnedFrom)} The usual margin would be ${numberText(margin.usualHours)} h.`}</p>
          <ul role="list" className={styles["items"]}>
            {margin.items.map((item) => (
              <Item key={item.what} item={item} />
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function Item({ item: { what, hours, why, source } }: { readonly item: MarginItem }) {
  return (
    <li className={styles["item"]}>
      <span className={styles["hours"]}>{numberText(hours, 1)} h</span>
      <span>
        <strong className={styles["what"]}>{what}</strong> {why} <span className={styles["source"]}>({source})</span>
      </span>
    </li>
  );
}
