import { useId } from "react";
import { Temporal } from "temporal-polyfill";
import { showInterval, showTime } from "@/lib/domain/time/show-time";
import { classNames } from "./class-names";
import { textWidth } from "./curve-layout";
import { RampGradient, rampFill } from "./ramp-gradient";
import { stagePatternId } from "./stage-pattern";
import { rampInk } from "./temperature-ramp";
import { fitText, WALL, type WallBar, type WallSegment } from "./wall-layout";
import styles from "./kiln-wall.module.css";

export type WallScale = { readonly x: (ms: number) => number; readonly left: number; readonly right: number; readonly timeZone: string; readonly patterns: string };

type WallBarViewProps = { readonly bar: WallBar; readonly kiln: string; readonly y: number; readonly scale: WallScale };

const SIGN = { held: "? ", planned: "", started: "▸ ", done: "✓ " } as const;

/** One firing: what and whose it is, above its program drawn to scale. */
export function WallBarView({ bar, kiln, y, scale }: WallBarViewProps) {
  const [from, to] = [Math.max(scale.x(bar.startMs), scale.left), Math.min(scale.x(bar.endMs), scale.right)];
  const [width, height] = [Math.max(to - from, 3), WALL.words + WALL.picture];
  // Beside the words where there is room for both, under them in a narrow bar.
  const signBeside = bar.trouble !== undefined && width > 120;
  const room = width - (bar.mine ? 16 : 12) - (signBeside ? 20 : 0);
  const textX = from + (bar.mine ? 10 : 6);
  const said = barText(bar, kiln, scale.timeZone);
  return (
    <a href={bar.href} aria-label={said} className={classNames(styles["bar"], styles[bar.status], bar.trouble !== undefined && styles["barTrouble"])}>
      <title>{said}</title>
      <rect x={from} y={y} width={width} height={height} className={styles["barPaper"]} />
      <svg x={from} y={y} width={width} height={height} viewBox={`${from} ${y} ${width} ${height}`}>
        <BarPicture bar={bar} bottom={y + height} scale={scale} />
      </svg>
      <text x={textX} y={y + 15} fontSize="13" className={styles["barTitle"]}>
        {fitText(SIGN[bar.status] + bar.title, room, 13.5)}
      </text>
      <text x={textX} y={y + 30} fontSize="12" className={styles["barWho"]}>
        {fitText(bar.mine ? `${bar.who} (you)` : bar.who, room, 12)}
      </text>
      <rect x={from} y={y} width={width} height={height} className={styles["barEdge"]} />
      {bar.mine && <rect x={from} y={y} width="4" height={height} className={styles["mine"]} />}
      {bar.trouble !== undefined && <TroubleSign x={to - 12} y={signBeside ? y + 12 : y + WALL.words + 10} />}
      <rect x={from - 3} y={y - 3} width={width + 6} height={height + 6} rx="2" className={styles["ring"]} />
    </a>
  );
}

/** An ask: dashed, because nothing is held for it yet. */
export function WallAskView({ bar, kiln, y, scale }: WallBarViewProps) {
  const [from, to] = [Math.max(scale.x(bar.startMs), scale.left), Math.min(scale.x(bar.endMs), scale.right)];
  const [width, height] = [Math.max(to - from, 3), WALL.ask - 6];
  const said = `Ask: ${barText(bar, kiln, scale.timeZone)}`;
  return (
    <a href={bar.href} aria-label={said} className={classNames(styles["bar"], styles["ask"], bar.trouble !== undefined && styles["barTrouble"])}>
      <title>{said}</title>
      <rect x={from} y={y} width={width} height={height} className={styles["askEdge"]} />
      {bar.mine && <rect x={from} y={y} width="4" height={height} className={styles["mine"]} />}
      <text x={from + (bar.mine ? 10 : 6)} y={y + 16} fontSize="12" className={styles["barWho"]}>
        {fitText(`${bar.title} · ${bar.mine ? "you" : bar.who}`, width - 14, 12)}
      </text>
      <rect x={from - 3} y={y - 3} width={width + 6} height={height + 6} rx="2" className={styles["ring"]} />
    </a>
  );
}

function BarPicture({ bar, bottom, scale }: { readonly bar: WallBar; readonly bottom: number; readonly scale: WallScale }) {
  const prefix = useId();
  const segments = bar.segments.filter((segment) => segment.endMs > segment.startMs);
  const top = (celsius: number) => Math.round((bottom - (WALL.picture * Math.max(0, celsius)) / WALL.hottestC) * 10) / 10;
  const line = segments.map((one) => `${scale.x(one.startMs)},${top(one.fromC)} ${scale.x(one.endMs)},${top(one.toC)}`).join(" ");
  return (
    <g className={styles["barPicture"]}>
      <defs>
        {segments.map((one, i) => (
          <RampGradient key={one.startMs} id={`${prefix}-${i}`} fromC={one.fromC} toC={one.toC} />
        ))}
      </defs>
      {segments.map((one, i) => {
        const [from, to] = [scale.x(one.startMs), scale.x(one.endMs) + 0.4];
        const points = `${from},${bottom} ${from},${top(one.fromC)} ${to},${top(one.toC)} ${to},${bottom}`;
        return (
          <g key={one.startMs}>
            <polygon points={points} fill={rampFill(`${prefix}-${i}`, one.fromC, one.toC)} />
            <polygon points={points} fill={`url(#${stagePatternId(scale.patterns, one.stage)})`} className={styles["pattern"]} />
          </g>
        );
      })}
      <polyline points={line} className={styles["barLine"]} />
      {joined(segments).map((one) => (
        <StageWord key={one.startMs} segment={one} bottom={bottom} top={top} scale={scale} />
      ))}
    </g>
  );
}

/** The stage's name where there is room for it: inside the area when that is tall enough, above it otherwise. */
function StageWord({ segment, bottom, top, scale }: { readonly segment: WallSegment; readonly bottom: number; readonly top: (celsius: number) => number; readonly scale: WallScale }) {
  const [from, to] = [Math.max(scale.x(segment.startMs), scale.left), Math.min(scale.x(segment.endMs), scale.right)];
  if (to - from < textWidth(segment.stage, 11) + 6) return null;
  const middleC = (segment.fromC + segment.toC) / 2;
  const inside = bottom - top(Math.min(segment.fromC, segment.toC)) > 15;
  const y = inside ? bottom - 4.5 : top(Math.max(segment.fromC, segment.toC)) - 4;
  return (
    <text x={(from + to) / 2} y={y} fontSize="11" textAnchor="middle" fill={inside ? rampInk(middleC) : undefined} className={inside ? undefined : styles["wordAbove"]}>
      {segment.stage}
    </text>
  );
}

function joined(segments: readonly WallSegment[]): readonly WallSegment[] {
  const spans: WallSegment[] = [];
  for (const one of segments) {
    const last = spans.at(-1);
    if (last?.stage === one.stage) spans[spans.length - 1] = { ...last, endMs: one.endMs, toC: one.toC };
    else spans.push(one);
  }
  return spans;
}

export function TroubleSign({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <g>
      <circle cx={x} cy={y} r="8" className={styles["sign"]} />
      <path d={`M${x} ${y - 4}v5M${x} ${y + 3.6}v.1`} className={styles["signMark"]} />
    </g>
  );
}

function statusText({ status, heldUntilMs }: WallBar, timeZone: string): string {
  return heldUntilMs === undefined ? status : `held until ${showTime(Temporal.Instant.fromEpochMilliseconds(heldUntilMs), timeZone)}`;
}

function barText(bar: WallBar, kiln: string, timeZone: string): string {
  const interval = { start: Temporal.Instant.fromEpochMilliseconds(bar.startMs), end: Temporal.Instant.fromEpochMilliseconds(bar.endMs) };
  const parts = [bar.title, bar.mine ? `${bar.who} (you)` : bar.who, kiln, statusText(bar, timeZone), showInterval(interval, timeZone)];
  return `${parts.join(", ")}${bar.trouble === undefined ? "" : `. Clash: ${bar.trouble}`}`;
}
