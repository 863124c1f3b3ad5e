import type { ReactNode } from "react";
import styles from "./notice.module.css";

type CautionNoteProps = { readonly title?: string | undefined; readonly children: ReactNode };

/** The usual cautions where work can hurt someone. Stands on screen and on paper. */
export function CautionNote({ title = "Caution", children }: CautionNoteProps) {
  return (
    <div role="note" className={styles["caution"]} aria-label={title}>
      <h3>
        <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
          <path d="M10 2L19 18H1Z" fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinejoin="round" />
          <path d="M10 8v5M10 15.2v.1" stroke="currentColor" strokeWidth="1.8" strokeLinecap="round" />
        </svg>
        {title}
      </h3>
      {typeof children === "string" ? <p>{children}</p> : children}
    </div>
  );
}
