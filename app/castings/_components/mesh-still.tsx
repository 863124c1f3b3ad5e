import { useMemo } from "react";
import type { DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import type { MeshMark } from "./mesh-mark";
import { stillOf } from "./still-faces";
import { FIRST_VIEW } from "./mesh-view";
import styles from "./mesh.module.css";

type MeshStillProps = { readonly surface: DrawnSurface; readonly mark: MeshMark; readonly words: string };

/** The mesh from above a corner, for browsers that cannot turn it. */
export function MeshStill({ surface, mark, words }: MeshStillProps) {
  const { faces, at, view } = useMemo(() => stillOf(surface, mark, FIRST_VIEW), [surface, mark]);
  return (
    <svg className={styles["still"]} viewBox={view} role="img" aria-label={words}>
      {faces.map(({ d, dark }, i) => (
        <path key={i} d={d} className={styles["face"]} style={{ "--dark": `${dark}%` } as Record<string, string>} />
      ))}
      <circle cx={at[0]} cy={at[1]} r={1000 * mark.radius} className={styles["ball"]} />
      <circle cx={at[0]} cy={at[1]} r={14} className={styles["dot"]} />
      <text x={at[0] + 24} y={at[1] - 24} className={styles["said"]}>thickest</text>
    </svg>
  );
}
