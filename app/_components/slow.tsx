import styles from "./state.module.css";

/** Shown while a page is fetched: lines being drawn, and what is being waited for. */
export function Slow({ text = "Fetching…" }: { readonly text?: string | undefined }) {
  return (
    <div role="status" className={styles["state"]}>
      <p className={styles["text"]}>{text}</p>
      <div className={styles["lines"]} aria-hidden="true">
        <span className={styles["line"]} />
        <span className={styles["line"]} />
        <span className={styles["line"]} />
      </div>
    </div>
  );
}
