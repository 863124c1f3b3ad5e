import type { ReactNode } from "react";
import { classNames } from "./class-names";
import { Why } from "./why";
import styles from "./key-figure.module.css";

type KeyFigureProps = {
  readonly label: ReactNode;
  /** Already written out for this person, e.g. "14.2". */
  readonly value: ReactNode;
  readonly unit?: string | undefined;
  /** Where the number comes from, in a sentence or two; makes a "Why?" that opens. */
  readonly why?: ReactNode | undefined;
  readonly small?: boolean | undefined;
};

/** One number that matters, what it counts, and why it is so. */
export function KeyFigure({ label, value, unit, why, small = false }: KeyFigureProps) {
  return (
    <div className={classNames(styles["figure"], small && styles["small"])}>
      <div className={styles["number"]}>
        {value}
        {unit !== undefined && <span className={styles["unit"]}>{unit}</span>}
      </div>
      <div className={styles["label"]}>{label}</div>
      {why !== undefined && <Why>{why}</Why>}
    </div>
  );
}

/** Sets key figures side by side. */
export function KeyFigures({ children }: { readonly children: ReactNode }) {
  return <div className={styles["figures"]}>{children}</div>;
}
