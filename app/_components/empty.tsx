import type { ReactNode } from "react";
import styles from "./state.module.css";

type EmptyProps = {
  readonly title: string;
  /** What would fill this place, and how. */
  readonly children?: ReactNode;
  readonly action?: ReactNode | undefined;
};

/** Nothing here yet: says so, and what to do about it. */
export function Empty({ title, children, action }: EmptyProps) {
  return (
    <div className={styles["state"]}>
      <p className={styles["title"]}>{title}</p>
      {children !== undefined && <p className={styles["text"]}>{children}</p>}
      {action}
    </div>
  );
}
