import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./panel.module.css";

type PanelProps = {
  readonly title?: ReactNode | undefined;
  readonly lead?: ReactNode | undefined;
  readonly actions?: ReactNode | undefined;
  /** "needsYou" for what waits for this person; "trouble" for what cannot stand; "quiet" for background. */
  readonly tone?: "plain" | "quiet" | "needsYou" | "trouble" | undefined;
  readonly id?: string | undefined;
  readonly children?: ReactNode;
};

/** A section of a page under a rule, as on a drawing sheet. No boxes. */
export function Panel({ title, lead, actions, tone = "plain", id, children }: PanelProps) {
  const headed = title !== undefined || actions !== undefined || lead !== undefined;
  return (
    <section id={id} className={classNames(styles["panel"], tone !== "plain" && styles[tone])}>
      {headed && (
        <div className={styles["head"]}>
          {title !== undefined && <h2>{title}</h2>}
          {actions}
          {lead !== undefined && <p className={styles["lead"]}>{lead}</p>}
        </div>
      )}
      {children}
    </section>
  );
}
