import { useId } from "react";
import { numberText } from "@/app/_components/number-text";
import { rampColour } from "@/app/_components/temperature-ramp";
import type { BodyRow } from "@/lib/domain/firing/history-rows";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import { heatRange, profileAlong, sectionFrame, stressRange, type Across, type Along, type Cut, type SectionFrame } from "./section-frame";
import styles from "./section.module.css";

type SectionDrawingProps = { readonly width: number; readonly row: BodyRow; readonly history: PlanHistory; readonly cut: Cut; readonly across: Across; readonly said: string };

/** The piece in its mould, cut straight through, with what is looked at drawn over it from side to side. */
export function SectionDrawing({ width, row, history, cut, across, said }: SectionDrawingProps) {
  const heat = across === "heat";
  const along = heat
    ? profileAlong(history.atMm, row.celsius, cut, { middle: row.coreC, surface: row.surfaceC })
    : profileAlong(history.atMm, row.MPa, cut, { middle: row.centreMPa, surface: row.surfaceMPa });
  const frame = sectionFrame(width, cut, heat ? heatRange(row) : stressRange(history, row));
  return (
    <svg viewBox={`0 0 ${width} ${frame.height}`} role="img" aria-label={said} className={styles["section"]}>
      <Scale frame={frame} unit={heat ? "°C" : "MPa"} decimals={heat ? 0 : stressDecimals(frame)} />
      {heat ? <HeatAcross frame={frame} along={along} kilnC={row.kilnC} cut={cut} /> : <StressAcross frame={frame} along={along} />}
      <Strip frame={frame} cut={cut} row={row} history={history} />
    </svg>
  );
}

function stressDecimals({ marks }: SectionFrame): number {
  return Math.abs((marks[1] ?? 1) - (marks[0] ?? 0)) < 0.1 ? 2 : 1;
}

function Scale({ frame: { edges, plot, marks, y }, unit, decimals }: { readonly frame: SectionFrame; readonly unit: string; readonly decimals: number }) {
  const [from, , , to] = edges;
  return (
    <g>
      <text x={2} y={13} fontSize="12" className={styles["words"]}>
        {unit === "MPa" ? "MPa, tension up" : unit}
      </text>
      {marks.map((mark) => (
        <g key={mark}>
          <path d={`M${from} ${y(mark)}H${to}`} className={mark === 0 && unit === "MPa" ? styles["zero"] : styles["grid"]} />
          <text x={from - 6} y={y(mark) + 4} fontSize="12" textAnchor="end" className={styles["words"]}>
            {numberText(mark, decimals)}
          </text>
        </g>
      ))}
      {edges.map((x) => (
        <path key={x} d={`M${x} ${plot.top}V${plot.bottom + 12}`} className={styles["edge"]} />
      ))}
    </g>
  );
}

/** Through the wall to the kiln only the ends are known; between them stands a straight dashed line. */
function HeatAcross({ frame, along, kilnC, cut }: { readonly frame: SectionFrame; readonly along: readonly Along[]; readonly kilnC: number; readonly cut: Cut }) {
  const { edges, y } = frame;
  const surface = along.at(-1)?.value ?? kilnC;
  const walled = cut.wallMm > 0;
  return (
    <g>
      {walled && !cut.oneFace && <path d={`M${edges[0]} ${y(kilnC)}L${edges[1]} ${y(surface)}`} className={styles["throughWall"]} />}
      {walled && <path d={`M${edges[2]} ${y(surface)}L${edges[3]} ${y(kilnC)}`} className={styles["throughWall"]} />}
      <polyline points={pointsOf(along, frame)} className={styles["profile"]} />
    </g>
  );
}

/** Tension above zero is filled with rising strokes, compression below with level ones. */
function StressAcross({ frame, along }: { readonly frame: SectionFrame; readonly along: readonly Along[] }) {
  const id = useId();
  const { y, edges, plot } = frame;
  const [, from, to] = edges;
  const area = `${from},${y(0)} ${pointsOf(along, frame)} ${to},${y(0)}`;
  const half = (name: string, top: number, bottom: number) => (
    <clipPath id={`${id}-${name}`}>
      <rect x={from} y={top} width={to - from} height={Math.max(0, bottom - top)} />
    </clipPath>
  );
  return (
    <g>
      <defs>
        {half("up", plot.top - 8, y(0))}
        {half("down", y(0), plot.bottom + 8)}
        <pattern id={`${id}-tension`} width="7" height="7" patternUnits="userSpaceOnUse">
          <path d="M-1 8L8 -1" className={styles["stroke"]} />
        </pattern>
        <pattern id={`${id}-compression`} width="7" height="5" patternUnits="userSpaceOnUse">
          <path d="M0 2.5H7" className={styles["stroke"]} />
        </pattern>
      </defs>
      <polygon points={area} fill={`url(#${id}-tension)`} clipPath={`url(#${id}-up)`} />
      <polygon points={area} fill={`url(#${id}-compression)`} clipPath={`url(#${id}-down)`} />
      <polyline points={pointsOf(along, frame)} className={styles["profile"]} />
      <text x={(from + to) / 2} y={plot.top + 10} fontSize="12" textAnchor="middle" className={styles["words"]}>
        pulled ⁄⁄⁄
      </text>
      <text x={(from + to) / 2} y={plot.bottom - 2} fontSize="12" textAnchor="middle" className={styles["words"]}>
        pressed ≡
      </text>
    </g>
  );
}

/** The cut itself: investment hatched, glass in the colours of its temperature. */
function Strip({ frame, cut, row, history }: { readonly frame: SectionFrame; readonly cut: Cut; readonly row: BodyRow; readonly history: PlanHistory }) {
  const id = useId();
  const { edges, strip } = frame;
  const [outer, from, to, end] = edges;
  const high = strip.bottom - strip.top;
  const along = profileAlong(history.atMm, row.celsius, cut, { middle: row.coreC, surface: row.surfaceC });
  const [firstMm, lastMm] = [along[0]?.mm ?? 0, along.at(-1)?.mm ?? 1];
  const hasGlass = row.h >= history.glassFromH;
  return (
    <g>
      <defs>
        <pattern id={`${id}-hatch`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V6" className={styles["hatch"]} />
        </pattern>
        <linearGradient id={`${id}-heat`}>
          {along.map(({ mm, value }) => (
            <stop key={mm} offset={(mm - firstMm) / (lastMm - firstMm)} stopColor={rampColour(value)} />
          ))}
        </linearGradient>
      </defs>
      {from > outer && <rect x={outer} y={strip.top} width={from - outer} height={high} fill={`url(#${id}-hatch)`} className={styles["outline"]} />}
      {end > to && <rect x={to} y={strip.top} width={end - to} height={high} fill={`url(#${id}-hatch)`} className={styles["outline"]} />}
      <rect x={from} y={strip.top} width={to - from} height={high} fill={hasGlass ? `url(#${id}-heat)` : "none"} className={styles["outline"]} />
      <text x={(from + to) / 2} y={strip.bottom + 15} fontSize="12" textAnchor="middle" className={styles["words"]}>
        {`${hasGlass ? "glass" : "empty"}, ${numberText(cut.oneFace ? cut.halfMm : 2 * cut.halfMm)} mm`}
      </text>
      {end > to && (
        <text x={Math.min((to + end) / 2, frame.width - 40)} y={strip.bottom + 15} fontSize="12" textAnchor="middle" className={styles["words"]}>
          {`wall, ${numberText(cut.wallMm)} mm`}
        </text>
      )}
      {cut.oneFace && (
        <text x={from} y={strip.bottom + 30} fontSize="12" className={styles["words"]}>
          ← rests, keeps its heat
        </text>
      )}
    </g>
  );
}

function pointsOf(along: readonly Along[], { x, y }: SectionFrame): string {
  return along.map(({ mm, value }) => `${x(mm)},${y(value)}`).join(" ");
}
