import { useId } from "react";
import { Temporal } from "temporal-polyfill";
import { showInterval, showTime } from "@/lib/domain/time/show-time";
import { StagePatterns } from "./stage-pattern";
import { WallAskView, WallBarView, type WallScale } from "./wall-bar";
import { fitText, WALL, wallRows, wallWeeks, type WallBar, type WallOutage, type WallRow, type WallSpan } from "./wall-layout";
import { WallLegend } from "./wall-legend";
import styles from "./kiln-wall.module.css";

export type KilnWallProps = WallSpan & {
  readonly kilns: readonly { readonly id: string; readonly name: string }[];
  readonly nowMs: number;
  /** How many weeks wide the picture is; from the span when left out. */
  readonly weeks?: number | undefined;
  readonly bars: readonly WallBar[];
  readonly outages: readonly WallOutage[];
  /** Asks: wished for, nothing held yet. */
  readonly ghosts?: readonly WallBar[] | undefined;
};

const MS_PER_WEEK = 604_800_000;
const EDGE = 6;

/**
 * All kilns over the coming weeks, to scale: across is time on the workshop's clock, and inside each
 * firing up is temperature. On a phone it scrolls sideways while the kilns' names stay in sight.
 */
export function KilnWall(props: KilnWallProps) {
  const { fromMs, toMs, timeZone, nowMs, weeks = (toMs - fromMs) / MS_PER_WEEK } = props;
  const patterns = useId();
  const { rows, height } = wallRows({ ...props, ghosts: props.ghosts ?? [] }, props);
  const width = Math.round(weeks * WALL.weekWidth) + EDGE * 2;
  const [left, right] = [EDGE, width - EDGE];
  const x = (ms: number) => Math.round((left + ((right - left) * (ms - fromMs)) / (toMs - fromMs)) * 10) / 10;
  const scale: WallScale = { x, left, right, timeZone, patterns };
  return (
    <figure className={styles["figure"]}>
      <div className={styles["scroll"]} role="region" aria-label="Kiln wall" tabIndex={0}>
        <div className={styles["sheet"]} style={{ minInlineSize: width, maxInlineSize: width * 1.3 }}>
          <svg viewBox={`0 0 ${width} ${height}`} className={styles["svg"]} role="group" aria-label={`All kilns, ${wallTime(fromMs, timeZone)} to ${wallTime(toMs, timeZone)}`}>
            <defs>
              <StagePatterns prefix={patterns} />
              <OutagePattern id={`${patterns}-outage`} />
            </defs>
            <WallAxis span={props} scale={scale} height={height} />
            <NowLine nowMs={nowMs} span={props} x={x} height={height} />
            {rows.map((row) => (
              <WallRowView key={row.kilnId} row={row} scale={scale} />
            ))}
            {nowMs >= fromMs && nowMs < toMs && <NowOnPictures at={x(nowMs)} rows={rows} />}
          </svg>
          {rows.map((row) => (
            <div key={row.kilnId} className={styles["nameStrip"]} style={{ insetBlockStart: `${(row.nameY / height) * 100}%` }} aria-hidden="true">
              <span className={styles["name"]}>{row.name}</span>
            </div>
          ))}
        </div>
      </div>
      <WallLegend />
    </figure>
  );
}

/** Weeks as columns, with a ruler of days along the head. */
function WallAxis({ span, scale, height }: { readonly span: WallSpan; readonly scale: WallScale; readonly height: number }) {
  const ruler = WALL.ruler;
  return (
    <g>
      <path d={`M${scale.left} ${ruler}H${scale.right}`} className={styles["ruler"]} />
      {wallWeeks(span).map((week, i, weeks) => {
        const x = scale.x(week.startMs);
        const days = [1, 2, 3, 4, 5, 6].map((days) => week.date.add({ days }).toZonedDateTime(span.timeZone).epochMilliseconds).filter((ms) => ms < span.toMs);
        return (
          <g key={week.startMs}>
            <path d={`M${x} ${ruler - 14}V${height}`} className={styles["week"]} />
            <path d={days.map((ms) => `M${scale.x(ms)} ${ruler}v-4`).join("")} className={styles["ruler"]} />
            <text x={x + 5} y={ruler - 7} fontSize="12" className={styles["weekText"]}>
              Mon {week.date.day}
            </text>
            {week.newMonth && weeks[i + 1]?.newMonth !== true && (
              <text x={x + 5} y={ruler - 24} fontSize="13" className={styles["monthText"]}>
                {week.date.toLocaleString("en-GB", { month: "long", year: "numeric" })}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

function WallRowView({ row, scale }: { readonly row: WallRow; readonly scale: WallScale }) {
  const bottom = row.laneY + row.laneHeight;
  return (
    <g role="list" aria-label={row.name}>
      <path d={`M${scale.left} ${bottom}H${scale.right}`} className={styles["lane"]} />
      {row.outages.map((outage, i) => (
        <g key={`${outage.startMs}-${i}`} role="listitem">
          <OutageView outage={outage} row={row} scale={scale} />
        </g>
      ))}
      {row.bars.map((bar) => (
        <g key={bar.id} role="listitem">
          <WallBarView bar={bar} kiln={row.name} y={row.laneY} scale={scale} />
        </g>
      ))}
      {row.asks.map(({ bar, y }) => (
        <g key={bar.id} role="listitem">
          <WallAskView bar={bar} kiln={row.name} y={y} scale={scale} />
        </g>
      ))}
    </g>
  );
}

function OutageView({ outage, row, scale }: { readonly outage: WallOutage; readonly row: WallRow; readonly scale: WallScale }) {
  const [from, to] = [Math.max(scale.x(outage.startMs), scale.left), Math.min(scale.x(outage.endMs), scale.right)];
  const interval = { start: Temporal.Instant.fromEpochMilliseconds(outage.startMs), end: Temporal.Instant.fromEpochMilliseconds(outage.endMs) };
  // The reason starts where the firings that reach into the outage end.
  const wordsFrom = row.bars.reduce((at, bar) => (bar.startMs < outage.endMs && bar.endMs > outage.startMs ? Math.max(at, scale.x(bar.endMs)) : at), from);
  const said = `Out of service, ${outage.reason}, ${showInterval(interval, scale.timeZone)}`;
  return (
    <g role="img" aria-label={said}>
      <title>{said}</title>
      <rect x={from} y={row.laneY - 7} width={Math.max(to - from, 3)} height={row.laneHeight + 14} fill={`url(#${scale.patterns}-outage)`} className={styles["outage"]} />
      <text x={wordsFrom + 6} y={row.laneY + 15} fontSize="12" className={styles["outageText"]}>
        {fitText(outage.reason, to - wordsFrom - 8, 12)}
      </text>
    </g>
  );
}

export function OutagePattern({ id }: { readonly id: string }) {
  return (
    <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <path d="M0 0V7" className={styles["outageStroke"]} />
    </pattern>
  );
}

function NowLine({ nowMs, span, x, height }: { readonly nowMs: number; readonly span: WallSpan; readonly x: (ms: number) => number; readonly height: number }) {
  if (nowMs < span.fromMs || nowMs >= span.toMs) return null;
  const at = x(nowMs);
  return (
    <g role="img" aria-label={`Now: ${wallTime(nowMs, span.timeZone)}`} className={styles["now"]}>
      <path d={`M${at} ${WALL.ruler}V${height - 8}`} className={styles["nowLine"]} />
      <rect x={at - 17} y={WALL.ruler} width="34" height="17" rx="2" className={styles["nowFlag"]} />
      <text x={at} y={WALL.ruler + 12.5} fontSize="12" textAnchor="middle" className={styles["nowText"]}>
        now
      </text>
    </g>
  );
}

/** The line again over the programs, where it shows how far a firing has come; the words above stay clear of it. */
function NowOnPictures({ at, rows }: { readonly at: number; readonly rows: readonly WallRow[] }) {
  const pieces = rows.map((row) => `M${at} ${row.laneY + WALL.words}V${row.laneY + row.laneHeight}`);
  return (
    <g className={styles["now"]} aria-hidden="true">
      <path d={pieces.join("")} className={styles["nowLine"]} />
    </g>
  );
}

function wallTime(ms: number, timeZone: string): string {
  return showTime(Temporal.Instant.fromEpochMilliseconds(ms), timeZone);
}
