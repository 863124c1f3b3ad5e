import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./page.module.css";

/** The main part of a page: the target of the skip link, with the page's margins. */
export function Page({ narrow = false, children }: { readonly narrow?: boolean | undefined; readonly children: ReactNode }) {
  return (
    <main id="main" tabIndex={-1} className={classNames(styles["page"], narrow && styles["narrow"])}>
      {children}
    </main>
  );
}

type PageHeadProps = {
  readonly title: ReactNode;
  /** A short line above the title, e.g. the way back. */
  readonly kicker?: ReactNode | undefined;
  readonly lead?: ReactNode | undefined;
  readonly actions?: ReactNode | undefined;
};

export function PageHead({ title, kicker, lead, actions }: PageHeadProps) {
  return (
    <header className={styles["head"]}>
      <div className={styles["title"]}>
        {kicker !== undefined && <div className={styles["kicker"]}>{kicker}</div>}
        <h1>{title}</h1>
        {lead !== undefined && <p className={styles["lead"]}>{lead}</p>}
      </div>
      {actions !== undefined && <div className={styles["actions"]}>{actions}</div>}
    </header>
  );
}

/** Two columns on a wide screen (5 to 7, or even), one below the other on a narrow one. */
export function Columns({ even = false, children }: { readonly even?: boolean | undefined; readonly children: ReactNode }) {
  return <div className={classNames(styles["two"], even && styles["even"])}>{children}</div>;
}

/** One below the other, evenly spaced. */
export function Stack({ children }: { readonly children: ReactNode }) {
  return <div className={styles["stack"]}>{children}</div>;
}

/** Side by side, wrapping: buttons, tags. */
export function Row({ children }: { readonly children: ReactNode }) {
  return <div className={styles["row"]}>{children}</div>;
}
