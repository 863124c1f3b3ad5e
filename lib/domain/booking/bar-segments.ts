import type { Temporal } from "temporal-polyfill";
import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** One straight piece of a kiln bar; times are epoch milliseconds, half-open, temperatures °C. */
export type BarSegment = {
  readonly stage: StageName;
  readonly startMs: number;
  readonly endMs: number;
  readonly fromC: number;
  readonly toC: number;
};

/** The room a kiln starts from when nothing else is known, °C. */
const ROOM_C = 20;

/**
 * The program of a firing as straight pieces that cover its booking from end to end without a gap: the
 * same stages as {@link stageTimes} of stage-times.ts, with their temperatures. The last piece lasts
 * until the booking ends, where the kiln waits; a program longer than its booking is cut there, at the
 * temperature it has reached by then.
 */
export function barSegments(stages: readonly Stage[], start: Temporal.Instant, end: Temporal.Instant): readonly BarSegment[] {
  const endMs = end.epochMilliseconds;
  const startMs = start.epochMilliseconds;
  const segments: BarSegment[] = [];
  let hours = 0;
  let celsius = ROOM_C;
  for (const { stage, hours: length, toC } of stages) {
    const fromMs = startMs + Math.round(hours * MS_PER_HOUR);
    if (fromMs >= endMs) break;
    const fromC = celsius;
    hours += length;
    celsius = toC;
    const toMs = startMs + Math.round(hours * MS_PER_HOUR);
    if (toMs === fromMs) continue;
    segments.push(toMs <= endMs ? { stage, startMs: fromMs, endMs: toMs, fromC, toC } : cut({ stage, startMs: fromMs, endMs: toMs, fromC, toC }, endMs));
  }
  return waited(segments, endMs, celsius);
}

function cut(segment: BarSegment, endMs: number): BarSegment {
  const share = (endMs - segment.startMs) / (segment.endMs - segment.startMs);
  return { ...segment, endMs, toC: segment.fromC + (segment.toC - segment.fromC) * share };
}

/** After the program the kiln stays at what it has reached, in the program's last stage. */
function waited(segments: readonly BarSegment[], endMs: number, celsius: number): readonly BarSegment[] {
  const last = segments.at(-1);
  if (last === undefined || last.endMs >= endMs) return segments;
  const { stage, endMs: reachedMs } = last;
  return [...segments, { stage, startMs: reachedMs, endMs, fromC: celsius, toC: celsius }];
}
