import { useId } from "react";
import { numberText } from "@/app/_components/number-text";
import type { SharedMoment, ShelfPlace } from "@/lib/server/joining/shared-view";
import type { ShelfLimits } from "@/lib/domain/sharing/shelf-for";
import styles from "./sharing.module.css";

type ShelfDrawingProps = {
  readonly title: string;
  readonly shelf: ShelfLimits;
  readonly moment: Pick<SharedMoment, "places" | "loadKg">;
  /** Of the casting that wants to join: it is hatched the other way and marked as new. */
  readonly joining?: string | undefined;
};

/** A kiln's shelf from above, to scale: its walls, what is kept free along them, and every mould with the number it has below. */
export function ShelfDrawing({ title, shelf, moment, joining }: ShelfDrawingProps) {
  const [width, depth] = shelf.insideMm;
  const { wallClearanceMm: free } = shelf;
  const margin = Math.max(width, depth) * 0.14;
  const text = Math.max(width, depth) / 22;
  const words = moment.places.map((place, i) => `${i + 1} ${placeText(place)}`).join("; ");
  return (
    <figure className={styles["shelf"]}>
      <svg viewBox={`${-margin * 0.15} ${-margin * 0.15} ${width + margin * 1.15} ${depth + margin * 1.15}`} role="img" aria-label={`${title}. The shelf from above, ${numberText(width)} by ${numberText(depth)} mm inside: ${words}.`}>
        <rect x={0} y={0} width={width} height={depth} className={styles["walls"]} />
        <rect x={free} y={free} width={width - 2 * free} height={depth - 2 * free} className={styles["free"]} />
        {moment.places.map((place, i) => (
          <Mould key={place.castingId} place={place} depth={depth} name={String(i + 1)} text={text} isNew={place.castingId === joining} />
        ))}
        <Measure x1={0} y1={depth + margin * 0.35} x2={width} y2={depth + margin * 0.35} text={text} said={`${numberText(width)} mm`} />
        <Measure x1={width + margin * 0.35} y1={0} x2={width + margin * 0.35} y2={depth} text={text} said={`${numberText(depth)} mm`} />
      </svg>
      <figcaption>
        <strong>{title}</strong>
        <ol className={styles["key"]}>
          {moment.places.map((place) => (
            <li key={place.castingId}>
              {placeText(place)}
              {place.castingId === joining ? ", new" : ""}
            </li>
          ))}
        </ol>
        <span className={styles["soft"]}>
          {numberText(moment.loadKg, 1)} of {numberText(shelf.shelfLoadKg)} kg. Dashed: {numberText(free)} mm kept free to the walls.
        </span>
      </figcaption>
    </figure>
  );
}

function placeText({ title, widthMm, depthMm, heightMm, round }: ShelfPlace): string {
  const plan = round ? `Ø ${numberText(widthMm)}` : `${numberText(widthMm)} × ${numberText(depthMm)}`;
  return `${title}: ${plan} mm, ${numberText(heightMm)} mm tall with its pot`;
}

type MouldProps = { readonly place: ShelfPlace; readonly depth: number; readonly name: string; readonly text: number; readonly isNew: boolean };

/** The kiln's front is at the foot of the drawing, as one stands before it. */
function Mould({ place, depth, name, text, isNew }: MouldProps) {
  const hatch = useId();
  const { xMm, widthMm, depthMm, round } = place;
  const y = depth - place.yMm - depthMm;
  const [cx, cy] = [xMm + widthMm / 2, y + depthMm / 2];
  const shape = (className: string | undefined, fill?: string) =>
    round ? <circle cx={cx} cy={cy} r={Math.min(widthMm, depthMm) / 2} className={className} fill={fill} /> : <rect x={xMm} y={y} width={widthMm} height={depthMm} className={className} fill={fill} />;
  return (
    <g>
      <defs>
        <pattern id={hatch} width={text * 0.6} height={text * 0.6} patternUnits="userSpaceOnUse" patternTransform={`rotate(${isNew ? -45 : 45})`}>
          <path d={`M0 0V${text * 0.6}`} className={styles["hatch"]} strokeWidth={text * 0.06} />
        </pattern>
      </defs>
      {shape(isNew ? styles["newMould"] : styles["mould"])}
      {shape(undefined, `url(#${hatch})`)}
      <circle cx={cx} cy={cy} r={text * 0.95} className={styles["number"]} />
      <text x={cx} y={cy + text * 0.36} fontSize={text} textAnchor="middle" className={styles["numberText"]}>{name}</text>
    </g>
  );
}

type MeasureProps = { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number; readonly text: number; readonly said: string };

function Measure({ x1, y1, x2, y2, text, said }: MeasureProps) {
  const upright = x1 === x2;
  const [mx, my] = [(x1 + x2) / 2, (y1 + y2) / 2];
  const end = text * 0.4;
  const ends = upright ? `M${x1 - end} ${y1}h${2 * end}M${x1 - end} ${y2}h${2 * end}` : `M${x1} ${y1 - end}v${2 * end}M${x2} ${y1 - end}v${2 * end}`;
  return (
    <g>
      <path d={`M${x1} ${y1}L${x2} ${y2}${ends}`} className={styles["measure"]} />
      <text x={mx} y={my + (upright ? text * 1.2 : text * 1.3)} fontSize={text * 0.9} textAnchor="middle" className={styles["measureText"]} transform={upright ? `rotate(-90 ${mx} ${my})` : undefined}>
        {said}
      </text>
    </g>
  );
}
