import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./state.module.css";

type TroubleProps = {
  readonly title?: string | undefined;
  readonly children?: ReactNode;
  /** The id that also stands in the log. */
  readonly id?: string | undefined;
  readonly action?: ReactNode | undefined;
};

/** Something broke that should not have. Short, with an id to quote to the manager. */
export function Trouble({ title = "This did not work", children, id, action }: TroubleProps) {
  return (
    <div role="alert" className={classNames(styles["state"], styles["trouble"])}>
      <p className={styles["title"]}>{title}</p>
      <p className={styles["text"]}>{children ?? "Nothing was changed. Try once more; if it happens again, tell the manager this id."}</p>
      {id !== undefined && (
        <p className={styles["id"]}>
          <code>{id}</code>
        </p>
      )}
      {action}
    </div>
  );
}
