import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./field-group.module.css";

type FieldGroupProps = {
  readonly title: ReactNode;
  readonly lead?: ReactNode | undefined;
  /** Title at the size of a label: for one question with several controls. */
  readonly small?: boolean | undefined;
  readonly describedBy?: string | undefined;
  readonly children: ReactNode;
};

/** Fields that belong together, with their common name. */
export function FieldGroup({ title, lead, small = false, describedBy, children }: FieldGroupProps) {
  return (
    <fieldset className={classNames(styles["group"], small && styles["small"])} aria-describedby={describedBy}>
      <legend className={styles["title"]}>{title}</legend>
      <div className={styles["body"]}>
        {lead !== undefined && <p className={styles["lead"]}>{lead}</p>}
        {children}
      </div>
    </fieldset>
  );
}

/** Sets fields side by side where there is room, each at least 9.5 rem wide. */
export function FieldGrid({ children }: { readonly children: ReactNode }) {
  return <div className={styles["grid"]}>{children}</div>;
}
