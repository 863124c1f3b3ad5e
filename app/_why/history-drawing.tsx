import { memo, useId, useMemo, type ComponentProps, type PointerEvent } from "react";
import { dayTicks } from "@/app/_components/curve-axes";
import { labelEveryDays, placeLabels, textWidth, type PlacedLabel } from "@/app/_components/curve-layout";
import { stageSpans, type Segment, type StageSpan } from "@/app/_components/program-line";
import type { StartClock } from "@/app/_components/stage-table";
import type { BodyRow } from "@/lib/domain/firing/history-rows";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import type { Glass } from "@/lib/domain/glass/glass";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import { HeatPanel } from "./heat-panel";
import { historyFrame, stressesOf, topCOf, type HistoryFrame, type HistorySize } from "./history-frame";
import { StressPanel } from "./stress-panel";
import styles from "./history.module.css";

export type HistoryPicture = {
  readonly segments: readonly Segment[];
  /** The program asked about, when it is another. */
  readonly whatIf: readonly Segment[];
  readonly history: PlanHistory | null;
  readonly limits: StressLimits;
  readonly glass: Pick<Glass, "stressOpticBrewster">;
  readonly startClock?: StartClock | undefined;
  readonly summary: string;
};

type HistoryDrawingProps = HistoryPicture & {
  readonly size: HistorySize;
  readonly span: readonly [fromH: number, toH: number];
  /** The moment looked at. */
  readonly row: BodyRow | undefined;
  readonly onMoment: (h: number) => void;
};

/** Program, glass and stress on one time axis, at one size. */
export function HistoryDrawing({ size, span, row, onMoment, segments, whatIf, history, limits, glass, startClock, summary }: HistoryDrawingProps) {
  const clip = useId();
  const [fromH, toH] = span;
  const { frame, inside, labels } = useMemo(() => layOut(size, [fromH, toH], { segments, whatIf, history, limits }), [size, fromH, toH, segments, whatIf, history, limits]);
  const { heat } = frame;
  const seek = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * heat.width;
    const share = (x - heat.left) / (heat.right - heat.left);
    if (share >= 0 && share <= 1) onMoment(fromH + share * (toH - fromH));
  };
  return (
    <svg viewBox={`0 0 ${heat.width} ${frame.height}`} role="img" aria-label={summary} className={styles["picture"]} onPointerMove={seek} onPointerDown={seek}>
      <defs>
        <clipPath id={clip}>
          <rect x={heat.left} y={0} width={heat.right - heat.left} height={frame.height} />
        </clipPath>
      </defs>
      <Panels frame={frame} segments={segments} whatIf={whatIf} spans={inside} labels={labels} history={history} limits={limits} glass={glass} text={size.text} clip={clip} startClock={startClock} />
      {row !== undefined && row.h >= fromH && row.h <= toH && <MomentMark frame={frame} row={row} hasGlass={history !== null && row.h >= history.glassFromH} />}
    </svg>
  );
}

type Layout = { readonly frame: HistoryFrame; readonly inside: readonly StageSpan[]; readonly labels: readonly PlacedLabel[] };

/** The names of the stages first, because they decide how far down the panels begin. */
function layOut(size: HistorySize, span: readonly [number, number], { segments, whatIf, history, limits }: Pick<HistoryPicture, "segments" | "whatIf" | "history" | "limits">): Layout {
  const [fromH, toH] = span;
  const inside = stageSpans(segments).filter((one) => one.toH > fromH + 1e-6 && one.fromH < toH).map((one) => ({ ...one, fromH: Math.max(one.fromH, fromH) }));
  const topC = topCOf([...segments, ...whatIf].reduce((most, one) => (one.toH > fromH + 1e-6 ? Math.max(most, one.toC, one.fromH >= fromH - 1e-6 ? one.fromC : 0) : most), 0));
  const stresses = history === null ? ([-limits.passingMPa, limits.passingMPa] as const) : stressesOf(history, limits, span);
  const labels = placeLabels(inside, { width: size.width, plotHeight: size.heatHeight, text: size.text }, historyFrame(size, span, topC, 1, stresses).heat.x);
  const tiers = labels.reduce((most, { tier }) => Math.max(most, tier + 1), 1);
  return { frame: historyFrame(size, span, topC, tiers, stresses), inside, labels };
}

type PanelsProps = ComponentProps<typeof HeatPanel> & ComponentProps<typeof StressPanel> & { readonly startClock: StartClock | undefined };

/** All that stays while the moment moves. */
const Panels = memo(function Panels({ startClock, ...props }: PanelsProps) {
  return (
    <g>
      <HeatPanel {...props} />
      <StressPanel {...props} />
      <TimeAxis frame={props.frame} text={props.text - 1} startClock={startClock} />
    </g>
  );
});

function TimeAxis({ frame: { heat, stress, fromH, toH }, text, startClock }: { readonly frame: HistoryFrame; readonly text: number; readonly startClock: StartClock | undefined }) {
  const days = dayTicks(toH, startClock).filter(({ atH }) => atH >= fromH);
  const longest = days.reduce((width, day) => Math.max(width, textWidth(day.text, text)), 0) + 10;
  const every = labelEveryDays(heat.x(fromH + 24) - heat.left, longest);
  return days.map((day, i) => {
    const labelled = i % every === 0;
    const x = heat.x(day.atH);
    const half = textWidth(day.text, text) / 2;
    return (
      <g key={day.atH}>
        <path d={`M${x} ${heat.bottom}v5M${x} ${stress.bottom}v${labelled ? 9 : 5}`} className={styles["axis"]} />
        {labelled && x - half > 0 && x + half < heat.width && (
          <text x={x} y={stress.bottom + 11 + text} fontSize={text} textAnchor="middle" className={styles["axisText"]}>
            {day.text}
          </text>
        )}
      </g>
    );
  });
}

function MomentMark({ frame: { heat, stress }, row, hasGlass }: { readonly frame: HistoryFrame; readonly row: BodyRow; readonly hasGlass: boolean }) {
  const x = heat.x(row.h);
  const dots = [heat.y(row.kilnC), heat.y(row.surfaceC), heat.y(row.coreC), ...(hasGlass ? [stress.y(row.surfaceMPa), stress.y(row.centreMPa)] : [])];
  return (
    <g className={styles["moment"]}>
      <path d={`M${x} ${heat.top - 6}V${stress.bottom}`} />
      {dots.map((y, i) => (
        <circle key={i} cx={x} cy={y} r="3.5" />
      ))}
    </g>
  );
}
