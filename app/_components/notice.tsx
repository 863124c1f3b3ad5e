import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./notice.module.css";

type NoticeProps = {
  /** "done" after something worked; "needsYou" waits for this person; "trouble" cannot stand. */
  readonly tone?: "plain" | "done" | "needsYou" | "trouble" | undefined;
  readonly children: ReactNode;
  readonly action?: ReactNode | undefined;
};

const SIGNS = { plain: undefined, done: "Done.", needsYou: "Needs you.", trouble: "Trouble." } as const;

/** One line about what just happened or what waits; announced when it appears. */
export function Notice({ tone = "plain", children, action }: NoticeProps) {
  return (
    <div role={tone === "trouble" ? "alert" : "status"} className={classNames(styles["notice"], tone !== "plain" && styles[tone])}>
      <p className={styles["text"]}>
        {SIGNS[tone] !== undefined && <span className={styles["sign"]}>{SIGNS[tone]}</span>}
        {children}
      </p>
      {action}
    </div>
  );
}
