import { FIELD_WORDS } from "@/lib/contracts/casting-fields";
import type { CastingField } from "@/lib/contracts/casting-fields";
import { fieldId } from "@/app/_components/field-id";
import { Notice } from "@/app/_components/notice";
import { FormProblems } from "@/app/_components/form-problems";
import type { LiveAnswer } from "./live-answer";
import styles from "./answer.module.css";

/** Why there is no answer to what stands in the form now: gently when it is only unfinished. */
export function StillNeeded({ live, hasAnswer }: { readonly live: LiveAnswer; readonly hasAnswer: boolean }) {
  if (live.state === "ready") return null;
  const faults = live.problems.filter((problem) => problem.code !== "missing");
  const missing = live.problems.filter((problem) => problem.code === "missing");
  return (
    <div className={styles["needed"]}>
      {faults.length > 0 && <FormProblems problems={faults} title={hasAnswer ? "No answer to this yet; below stands the one before" : "No answer to this yet"} />}
      {faults.length === 0 && missing.length > 0 && (
        <Notice>
          Still needed:{" "}
          {missing.map(({ field = "", message }, i) => (
            <span key={field}>
              {i > 0 && ", "}
              <a href={`#${fieldId(field)}`}>{words(field) ?? message}</a>
            </span>
          ))}
          .
        </Notice>
      )}
    </div>
  );
}

function words(field: string): string | undefined {
  const label = FIELD_WORDS[field as CastingField];
  return label === undefined ? undefined : `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}
