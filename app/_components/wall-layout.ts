import { Temporal } from "temporal-polyfill";
import type { StageName } from "@/lib/domain/firing/casting-plan";

export type WallSegment = {
  readonly stage: StageName;
  readonly startMs: number;
  readonly endMs: number;
  readonly fromC: number;
  readonly toC: number;
};

/** One firing on the kiln wall; times are epoch milliseconds, half-open. */
export type WallBar = {
  readonly id: string;
  readonly kilnId: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly title: string;
  readonly who: string;
  readonly mine: boolean;
  readonly status: "held" | "planned" | "started" | "done";
  /** Set while it is only held. */
  readonly heldUntilMs?: number | undefined;
  readonly href: string;
  readonly segments: readonly WallSegment[];
  /** What cannot stand about it, in a few words. */
  readonly trouble?: string | undefined;
};

export type WallOutage = { readonly kilnId: string; readonly startMs: number; readonly endMs: number; readonly reason: string };

/** The stretch of time in sight. */
export type WallSpan = { readonly fromMs: number; readonly toMs: number; readonly timeZone: string };

/** Heights in CSS pixels at natural size. */
export const WALL = { weekWidth: 96, head: 62, ruler: 38, name: 30, words: 36, picture: 42, ask: 30, gap: 22, hottestC: 950 } as const;
const LANE = WALL.words + WALL.picture;

export type WallRow = {
  readonly kilnId: string;
  readonly name: string;
  /** Where the row's name, its lane and its asks begin. */
  readonly nameY: number;
  readonly laneY: number;
  readonly laneHeight: number;
  readonly bars: readonly WallBar[];
  readonly asks: readonly { readonly bar: WallBar; readonly y: number }[];
  readonly outages: readonly WallOutage[];
};

type RowInput = {
  readonly kilns: readonly { readonly id: string; readonly name: string }[];
  readonly bars: readonly WallBar[];
  readonly outages: readonly WallOutage[];
  readonly ghosts: readonly WallBar[];
};

/** Stacks the kilns; asks stand below the lane of their kiln, on as many lines as keep them apart. */
export function wallRows(input: RowInput, span: WallSpan): { readonly rows: readonly WallRow[]; readonly height: number } {
  let y: number = WALL.head;
  const rows = input.kilns.map(({ id, name }) => {
    const [nameY, laneY] = [y, y + WALL.name];
    const ofKiln = <T extends { readonly kilnId: string; readonly startMs: number; readonly endMs: number }>(all: readonly T[]) =>
      all.filter((one) => one.kilnId === id && one.endMs > span.fromMs && one.startMs < span.toMs).sort((a, b) => a.startMs - b.startMs);
    const lines = stackLines(ofKiln(input.ghosts));
    const asks = lines.placed.map(({ bar, line }) => ({ bar, y: laneY + LANE + 6 + line * WALL.ask }));
    y = laneY + LANE + lines.count * WALL.ask + WALL.gap;
    return { kilnId: id, name, nameY, laneY, laneHeight: LANE, bars: ofKiln(input.bars), asks, outages: ofKiln(input.outages) };
  });
  return { rows, height: y };
}

function stackLines(bars: readonly WallBar[]) {
  const ends: number[] = [];
  const placed = bars.map((bar) => {
    const free = ends.findIndex((end) => end <= bar.startMs);
    const line = free === -1 ? ends.length : free;
    ends[line] = bar.endMs;
    return { bar, line };
  });
  return { placed, count: ends.length };
}

export type WallWeek = { readonly startMs: number; readonly date: Temporal.PlainDate; readonly newMonth: boolean };

/** The Mondays in sight, at midnight of the workshop's own clock: a week of a clock change is 167 or 169 hours wide. */
export function wallWeeks({ fromMs, toMs, timeZone }: WallSpan): readonly WallWeek[] {
  const weeks: WallWeek[] = [];
  const first = Temporal.Instant.fromEpochMilliseconds(fromMs).toZonedDateTimeISO(timeZone).toPlainDate();
  let date = first.subtract({ days: first.dayOfWeek - 1 });
  let month = 0;
  for (; ; date = date.add({ weeks: 1 })) {
    const startMs = date.toZonedDateTime(timeZone).epochMilliseconds;
    if (startMs >= toMs) return weeks;
    if (startMs < fromMs) continue;
    weeks.push({ startMs, date, newMonth: date.month !== month });
    month = date.month;
  }
}

/** As much of a text as fits, with an ellipsis where it was cut; nothing when not even three letters fit. */
export function fitText(text: string, width: number, size: number): string {
  const letters = Math.floor(width / (size * 0.54));
  if (text.length <= letters) return text;
  return letters < 4 ? "" : `${text.slice(0, letters - 1).trimEnd()}…`;
}
