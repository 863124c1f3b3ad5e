import type { Problem } from "@/lib/domain/refusal";
import { fieldId } from "./field-id";
import styles from "./form-problems.module.css";

type FormProblemsProps = {
  readonly problems: readonly Problem[] | undefined;
  readonly title?: string | undefined;
};

/** Everything that was refused, at the head of the form, each leading to its field. Renders nothing when all is well. */
export function FormProblems({ problems = [], title }: FormProblemsProps) {
  if (problems.length === 0) return null;
  const heading = title ?? (problems.length === 1 ? "One thing stands in the way" : `${problems.length} things stand in the way`);
  return (
    <div role="alert" className={styles["problems"]}>
      <p className={styles["title"]}>{heading}</p>
      <ul className={styles["list"]}>
        {problems.map((problem, i) => (
          <li key={`${problem.code}-${problem.field ?? ""}-${i}`}>
            {problem.field === undefined ? problem.message : <a href={`#${fieldId(problem.field)}`}>{problem.message}</a>}
            {problem.allowed !== undefined && !problem.message.includes(problem.allowed) && (
              <span className={styles["allowed"]}> Allowed: {problem.allowed}.</span>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
