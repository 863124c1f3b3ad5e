import { classNames } from "@/app/_components/class-names";
import styles from "./history.module.css";

export type LineKind = "kiln" | "surface" | "core" | "whatIf";
export type Point = readonly [x: number, y: number];

export type Line = { readonly kind: LineKind; readonly points: readonly Point[] };

/** Curves on paper of their own, so that they are seen on any colour and do not hide each other; told apart by their strokes. */
export function HistoryLines({ lines }: { readonly lines: readonly Line[] }) {
  const drawn = lines.filter(({ points }) => points.length > 1).map(({ kind, points }) => ({ kind, path: points.map(([x, y]) => `${x},${y}`).join(" ") }));
  return (
    <g>
      {drawn.map(({ kind, path }) => (
        <polyline key={kind} points={path} className={styles["halo"]} />
      ))}
      {drawn.map(({ kind, path }) => (
        <polyline key={kind} points={path} className={classNames(styles["curve"], styles[kind])} />
      ))}
    </g>
  );
}

const NAMES: Readonly<Record<LineKind, string>> = { kiln: "kiln", surface: "glass surface", core: "glass core", whatIf: "kiln, what if" };

/** Which stroke is which. */
export function LineLegend({ kinds }: { readonly kinds: readonly LineKind[] }) {
  return (
    <ul role="list" className={styles["legend"]}>
      {kinds.map((kind) => (
        <li key={kind}>
          <svg viewBox="0 0 44 12" className={styles["sample"]} aria-hidden="true" focusable="false">
            <path d="M1 6H43" className={classNames(styles["curve"], styles[kind])} />
          </svg>
          {NAMES[kind]}
        </li>
      ))}
    </ul>
  );
}
