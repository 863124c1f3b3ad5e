const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const QUARTER = HOUR / 4;

export type SeedRun = {
  readonly kiln: number;
  readonly steamer: number;
  readonly trolleys: readonly [load: number, unload: number];
  /** Half-open, epoch milliseconds. */
  readonly steam: readonly [number, number];
  readonly load: readonly [number, number];
  readonly fire: readonly [number, number];
  readonly unload: readonly [number, number];
};

export type SeedWish = {
  readonly kilns: number;
  readonly steamers: number;
  readonly trolleys: number;
  /** Midnight UTC of the first and the last day; runs lie wholly between them. */
  readonly from: number;
  readonly to: number;
  readonly random: () => number;
};

/** Lifts start at 08:00 UTC, a trolley at a time; steam-outs take a morning or an afternoon. */
const LIFTS_FROM = 8 * HOUR;
const LIFTS_A_DAY = 9;
const STEAM_HOURS = 3;
const TURNAROUND = 2 * HOUR;

/**
 * A full calendar: on every kiln one run after another, five to twelve days each with up to two days between, and no
 * piece of equipment twice at a time.
 */
export function seedRuns({ kilns, steamers, trolleys, from, to, random }: SeedWish): readonly SeedRun[] {
  const takenLifts = new Map<number, number>();
  const takenSteams = new Map<number, number>();
  /** The first day at or after this one with a place left, and that place. */
  const place = (taken: Map<number, number>, day: number, most: number): readonly [day: number, place: number] => {
    for (let at = day; ; at += DAY) {
      const count = taken.get(at) ?? 0;
      if (count >= most || new Date(at).getUTCDay() === 0) continue;
      taken.set(at, count + 1);
      return [at, count];
    }
  };
  const lift = (day: number) => {
    const [at, count] = place(takenLifts, day, trolleys * LIFTS_A_DAY);
    const start = at + LIFTS_FROM + Math.floor(count / trolleys) * 4 * QUARTER;
    return { start, end: start + 3 * QUARTER, trolley: count % trolleys };
  };
  const runs: SeedRun[] = [];
  const next = Array.from({ length: kilns }, () => from + Math.floor(random() * 8) * DAY);
  for (let day = from; day < to; day += DAY) {
    for (let kiln = 0; kiln < kilns; kiln += 1) {
      if ((next[kiln] ?? 0) > day) continue;
      const [steamDay, steam] = place(takenSteams, day, steamers * 2);
      const load = lift(steamDay + DAY);
      const unload = lift(load.end - (load.end % DAY) + (5 + Math.floor(random() * 8)) * DAY);
      const freeAt = unload.end + TURNAROUND;
      next[kiln] = freeAt - (freeAt % DAY) + Math.floor(random() * 3) * DAY;
      if (freeAt >= to) continue;
      const steamStart = steamDay + LIFTS_FROM + Math.floor(steam / steamers) * 5 * HOUR;
      runs.push({
        kiln, steamer: steam % steamers, trolleys: [load.trolley, unload.trolley],
        steam: [steamStart, steamStart + STEAM_HOURS * HOUR], load: [load.start, load.end], fire: [load.end, freeAt], unload: [unload.start, unload.end],
      });
    }
  }
  return runs;
}
