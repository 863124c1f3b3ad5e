import { type CastingField, labelOf } from "@/lib/contracts/casting-fields";
import { fieldId } from "@/app/_components/field-id";
import { Notice } from "@/app/_components/notice";
import { FormProblems } from "@/app/_components/form-problems";
import type { LiveAnswer } from "./live-answer";
import styles from "./answer.module.css";

type StillNeededProps = { readonly live: LiveAnswer; readonly shape: string; readonly hasAnswer: boolean };

/** Why there is no answer to what stands in the form now: gently when it is only unfinished. */
export function StillNeeded({ live, shape, hasAnswer }: StillNeededProps) {
  if (live.state === "ready") return null;
  const faults = live.problems.filter((problem) => problem.code !== "missing");
  const missing = live.problems.filter((problem) => problem.code === "missing");
  return (
    <div className={styles["needed"]}>
      {faults.length > 0 && <FormProblems problems={faults} title={hasAnswer ? "No answer to this yet; below stands the one before" : "No answer to this yet"} />}
      {faults.length === 0 && missing.length > 0 && (
        <Notice>
          Still needed:{" "}
          {missing.map(({ field = "" }, i) => (
            <span key={field}>
              {i > 0 && ", "}
              <a href={`#${fieldId(field)}`}>{words(field, shape)}</a>
            </span>
          ))}
          .
        </Notice>
      )}
    </div>
  );
}

function words(field: string, shape: string): string {
  const label = labelOf(field as CastingField, shape);
  return `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}
