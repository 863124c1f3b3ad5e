import styles from "./sums.module.css";

export type SumLine = { readonly what: string; readonly amount: string };

/** Amounts under each other, and what they add up to. */
export function Sums({ lines, total }: { readonly lines: readonly SumLine[]; readonly total?: SumLine }) {
  return (
    <dl className={styles["sums"]}>
      {lines.map(({ what, amount }) => (
        <div key={what} className={styles["line"]}>
          <dt>{what}</dt>
          <dd>{amount}</dd>
        </div>
      ))}
      {total !== undefined && (
        <div className={styles["total"]}>
          <dt>{total.what}</dt>
          <dd>{total.amount}</dd>
        </div>
      )}
    </dl>
  );
}
