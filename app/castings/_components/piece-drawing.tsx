import type { ReactNode } from "react";
import { type CastingForm, isFormShape, sizeFieldsOf } from "@/lib/contracts/casting-fields";
import { readNumber } from "@/lib/contracts/form-number";
import { type Box, drawingScale, solidPaths } from "./solid-paths";
import styles from "./drawing.module.css";

const WIDTH = 220;
const HEIGHT = 170;

/** The piece as it was described, to scale, seen from above a corner; a hand's breadth (100 mm) beside it. */
export function PieceDrawing({ form }: { readonly form: CastingForm }) {
  const box = boxOf(form);
  if (box === null) {
    return (
      <Frame label="A drawing of the piece appears when its sizes are given.">
        <text x={WIDTH / 2} y={HEIGHT / 2} textAnchor="middle" className={styles["quiet"]}>
          drawn when sized
        </text>
      </Frame>
    );
  }
  const scale = drawingScale(box, WIDTH - 24, HEIGHT - 44);
  const { faces, edges } = solidPaths(box, scale, WIDTH / 2, (HEIGHT - 24) / 2);
  const bar = barMm(scale);
  return (
    <Frame label={`The piece, ${box.words}.`}>
      {faces.map((face) => (
        <path key={face.d} d={face.d} className={styles[face.tone]} />
      ))}
      {edges.map((d) => (
        <path key={d} d={d} className={styles["edge"]} />
      ))}
      <path d={`M12 ${HEIGHT - 14}v4h${bar * scale}v-4`} className={styles["bar"]} />
      <text x={18 + bar * scale} y={HEIGHT - 8} className={styles["small"]}>
        {bar} mm
      </text>
    </Frame>
  );
}

function Frame({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <svg className={styles["piece"]} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={label}>
      {children}
    </svg>
  );
}

/** The longest round length that takes at most a third of the drawing. */
function barMm(scale: number): number {
  return [1000, 500, 200, 100, 50, 20, 10, 5, 2, 1].find((mm) => mm * scale <= WIDTH / 3) ?? 1;
}

function boxOf(form: CastingForm): Box | null {
  const shape = form["piece.shape"];
  if (!isFormShape(shape)) return null;
  const sizes = sizeFieldsOf(shape).flatMap((field) => {
    const read = readNumber(field, form[field], { label: field });
    return read.ok && read.value !== undefined && read.value > 0 && read.value <= 10_000 ? [read.value] : [];
  });
  const [a, b, c] = sizes;
  if (a === undefined || sizes.length < sizeFieldsOf(shape).length) return null;
  const words = `${shape}, ${sizes.join(" by ")} mm`;
  switch (shape) {
    case "brick":
      return b === undefined || c === undefined ? null : { shape, width: a, depth: b, height: c, words };
    case "cylinder":
      return b === undefined ? null : { shape, width: a, depth: a, height: b, words };
    case "ball":
      return { shape, width: a, depth: a, height: a, words };
    case "slab":
      return { shape: "brick", width: 6 * a, depth: 6 * a, height: a, words };
  }
}
