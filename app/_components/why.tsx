import type { ReactNode } from "react";
import styles from "./why.module.css";

type WhyProps = { readonly ask?: string | undefined; readonly children: ReactNode };

/** The reason for a number, kept folded until it is asked for. */
export function Why({ ask = "Why?", children }: WhyProps) {
  return (
    <details className={styles["why"]}>
      <summary className={styles["ask"]}>{ask}</summary>
      <div className={styles["answer"]}>{children}</div>
    </details>
  );
}
