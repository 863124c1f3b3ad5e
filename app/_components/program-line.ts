import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";

/** The room the kiln starts from when nothing else is known, °C. */
const ROOM_C = 20;

/** One straight piece of the program. */
export type Segment = {
  readonly stage: StageName;
  readonly fromH: number;
  readonly toH: number;
  readonly fromC: number;
  readonly toC: number;
  readonly rateKPerH: number;
  readonly why: string;
};

/** Neighbouring segments of one stage, as one. */
export type StageSpan = {
  readonly stage: StageName;
  readonly fromH: number;
  readonly toH: number;
  readonly fromC: number;
  readonly toC: number;
  readonly segments: readonly [Segment, ...Segment[]];
};

/** The program as a line over elapsed hours, from room temperature. Steps that take no time are upright. */
export function programLine(stages: readonly Stage[], startC = ROOM_C): readonly Segment[] {
  let hours = 0;
  let celsius = startC;
  return stages.map(({ stage, toC, hours: length, rateKPerH, why }) => {
    const segment = { stage, fromH: hours, toH: hours + length, fromC: celsius, toC, rateKPerH, why };
    hours = segment.toH;
    celsius = toC;
    return segment;
  });
}

export function stageSpans(segments: readonly Segment[]): readonly StageSpan[] {
  const spans: StageSpan[] = [];
  for (const segment of segments) {
    const last = spans.at(-1);
    if (last !== undefined && last.stage === segment.stage) {
      spans[spans.length - 1] = { ...last, toH: segment.toH, toC: segment.toC, segments: [...last.segments, segment] };
    } else {
      const { stage, fromH, toH, fromC, toC } = segment;
      spans.push({ stage, fromH, toH, fromC, toC, segments: [segment] });
    }
  }
  return spans;
}
