import styles from "./drawing.module.css";

const SIDES: readonly (readonly [x1: number, y1: number, x2: number, y2: number])[] = [
  [32, 12, 32, 3],
  [32, 36, 32, 45],
  [18, 24, 6, 24],
  [46, 24, 58, 24],
];

/** A block of glass and where its heat goes: out on all sides, or up only, from a thick bed. */
export function CoolingPicture({ way }: { readonly way: "all-round" | "one-face" }) {
  const arrows = way === "all-round" ? SIDES : SIDES.slice(0, 1);
  return (
    <svg className={styles["cooling"]} viewBox="0 0 64 48" aria-hidden="true" focusable="false">
      {way === "one-face" && <path d="M8 15V42H56V15H46V36H18V15Z" className={styles["bed"]} />}
      <rect x="19" y="13" width="26" height="22" className={styles["hot"]} />
      {arrows.map(([x1, y1, x2, y2]) => (
        <g key={`${x2}-${y2}`} className={styles["arrow"]}>
          <path d={`M${x1} ${y1}L${x2} ${y2}`} />
          <path d={arrowHead(x1, y1, x2, y2)} />
        </g>
      ))}
    </svg>
  );
}

/** Two short strokes back from the tip, at 45° to the arrow. */
function arrowHead(x1: number, y1: number, x2: number, y2: number): string {
  const [dx, dy] = [Math.sign(x1 - x2) * 3.5, Math.sign(y1 - y2) * 3.5];
  return `M${x2 + dx - dy} ${y2 + dy - dx}L${x2} ${y2}L${x2 + dx + dy} ${y2 + dy + dx}`;
}
