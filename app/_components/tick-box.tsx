import styles from "./tick-box.module.css";

/** An empty box to tick with a pen on a printed sheet. */
export function TickBox() {
  return <span className={styles["box"]} aria-hidden="true" />;
}
