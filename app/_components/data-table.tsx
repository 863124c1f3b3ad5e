import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./data-table.module.css";

export type Column<Row> = {
  readonly key: string;
  readonly title: string;
  readonly cell: (row: Row) => ReactNode;
  /** Numbers stand at the end of their column, so that digits line up. */
  readonly numeric?: boolean | undefined;
  /** Hides the title from sight: for columns of buttons. */
  readonly untitled?: boolean | undefined;
};

type DataTableProps<Row> = {
  /** Said first by a screen reader. Shown when `showCaption`. */
  readonly caption: string;
  readonly showCaption?: boolean | undefined;
  /** The first column names the row. */
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
  readonly rowTone?: ((row: Row) => "plain" | "needsYou" | "trouble") | undefined;
  /** Stands in place of the table when there are no rows. */
  readonly empty?: ReactNode | undefined;
};

/**
 * A table; where it has less than 36 rem, each row becomes a stack of titled cells. The explicit roles
 * keep it a table for assistive technology when its display is changed.
 */
export function DataTable<Row>(props: DataTableProps<Row>) {
  const { caption, showCaption = false, columns, rows, rowKey, rowTone, empty } = props;
  if (rows.length === 0 && empty !== undefined) return <>{empty}</>;
  return (
    <div className={styles["frame"]}>
      <table role="table" className={styles["table"]}>
        <caption className={showCaption ? styles["caption"] : "sr-only"}>{caption}</caption>
        <thead role="rowgroup">
          <tr role="row">
            {columns.map((column) => (
              <th key={column.key} role="columnheader" scope="col" className={classNames(column.numeric && styles["end"])}>
                {column.untitled ? <span className="sr-only">{column.title}</span> : column.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.map((row) => (
            <tr key={rowKey(row)} role="row" className={toneClass(rowTone?.(row))}>
              {columns.map((column, i) => (
                <Cell key={column.key} column={column} row={row} heads={i === 0} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Cell<Row>({ column, row, heads }: { readonly column: Column<Row>; readonly row: Row; readonly heads: boolean }) {
  const content = column.cell(row);
  const blank = content === undefined || content === null || content === "";
  const className = classNames(column.numeric && styles["end"], blank && styles["blank"]);
  const inner = <div>{content}</div>;
  if (heads) {
    return (
      <th role="rowheader" scope="row" className={className}>
        {inner}
      </th>
    );
  }
  return (
    <td role="cell" data-title={column.untitled ? "" : column.title} className={className}>
      {inner}
    </td>
  );
}

function toneClass(tone: "plain" | "needsYou" | "trouble" | undefined): string | undefined {
  return tone === undefined || tone === "plain" ? undefined : styles[tone];
}
