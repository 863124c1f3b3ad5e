import { useId } from "react";
import { Temporal } from "temporal-polyfill";
import { showDate } from "@/lib/domain/time/show-time";
import { labelEveryDays, textWidth, type CurveFrame } from "./curve-layout";
import { RampGradient } from "./ramp-gradient";
import type { StartClock } from "./stage-table";
import styles from "./firing-curve.module.css";

type CurveAxesProps = { readonly frame: CurveFrame; readonly hours: number; readonly text: number; readonly startClock?: StartClock | undefined };

/** Temperature up the side, with the ramp as its thermometer; days along the foot. */
export function CurveAxes({ frame, hours, text, startClock }: CurveAxesProps) {
  const ramp = useId();
  const levels = Array.from({ length: Math.floor(frame.topC / 200) + 1 }, (_, i) => i * 200);
  return (
    <g>
      <defs>
        <RampGradient id={ramp} fromC={0} toC={frame.topC} upright />
      </defs>
      {levels.map((celsius) => (
        <g key={celsius}>
          <path d={`M${frame.left} ${frame.y(celsius)}H${frame.right}`} className={celsius === 0 ? styles["axis"] : styles["grid"]} />
          <text x={frame.left - 12} y={frame.y(celsius) + text * 0.34} fontSize={text - 1} textAnchor="end" className={styles["axisText"]}>
            {celsius === 0 ? "0 °C" : celsius}
          </text>
        </g>
      ))}
      <rect x={frame.left - 7} y={frame.y(frame.topC)} width="5" height={frame.bottom - frame.y(frame.topC)} fill={`url(#${ramp})`} />
      <DayTicks frame={frame} hours={hours} text={text - 1} startClock={startClock} />
    </g>
  );
}

function DayTicks({ frame, hours, text, startClock }: CurveAxesProps) {
  const days = dayTicks(hours, startClock);
  const pxPerDay = frame.x(24) - frame.x(0);
  const longest = days.reduce((width, day) => Math.max(width, textWidth(day.text, text)), 0) + 10;
  const every = labelEveryDays(pxPerDay, longest);
  return days.map((day, i) => {
    const labelled = i % every === 0;
    const x = frame.x(day.atH);
    const half = textWidth(day.text, text) / 2;
    return (
      <g key={day.atH}>
        <path d={`M${x} ${frame.bottom}v${labelled ? 9 : 5}`} className={styles["axis"]} />
        {labelled && x - half > 0 && x + half < frame.width && (
          <text x={x} y={frame.bottom + 11 + text} fontSize={text} textAnchor="middle" className={styles["axisText"]}>
            {day.text}
          </text>
        )}
      </g>
    );
  });
}

/** Where days begin: by the workshop's clock, or counted from the closing of the door. */
export function dayTicks(hours: number, startClock: StartClock | undefined): readonly DayTick[] {
  return startClock === undefined ? elapsedDays(hours) : clockDays(startClock, hours);
}

export type DayTick = { readonly atH: number; readonly text: string };

function elapsedDays(hours: number): readonly DayTick[] {
  return Array.from({ length: Math.floor(hours / 24) + 1 }, (_, i) => ({ atH: i * 24, text: i === 0 ? "closed" : i === 1 ? "1 day" : `${i} days` }));
}

/** The midnights of the workshop's clock during the firing; a day of a clock change is drawn 23 or 25 hours wide. */
function clockDays({ instantMs, timeZone }: StartClock, hours: number): readonly DayTick[] {
  const ticks: DayTick[] = [];
  const start = Temporal.Instant.fromEpochMilliseconds(instantMs).toZonedDateTimeISO(timeZone);
  for (let day = start.toPlainDate().add({ days: 1 }); ; day = day.add({ days: 1 })) {
    const atH = (day.toZonedDateTime(timeZone).epochMilliseconds - instantMs) / 3_600_000;
    if (!(atH <= hours)) return ticks;
    ticks.push({ atH, text: showDate(day) });
  }
}
