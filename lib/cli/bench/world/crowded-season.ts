import type { DayFields } from "@/lib/contracts/settle-days";
import { seeded } from "../seeded";

/**
 * Which season: `replan` books most of it first come, first served, then breaks a kiln and lengthens firings. With
 * `fewHands` a day's loads and unloads hardly keep up with the kilns: 3 a day for 12 of them, where others have 4.
 */
export type SeasonKind = { readonly kilns: number; readonly asks: number; readonly seed: number; readonly replan: boolean; readonly alike?: number; readonly fewHands?: boolean };

type Job = DayFields["jobs"][number];
type Booking = NonNullable<Job["bk"]>;

const WEIGHTS = [1, 1, 1, 2, 2, 2, 4, 4, 8];
const BOOKED = 0.8;
const PROMISED = 0.3;
const LENGTHENED = 0.15;
const LONGER = 1.3;
const DOWN = { from: 10, to: 31 };
const isStaffed = (t: number): boolean => t % 7 < 5;
const staffedFrom = (t: number): number => (isStaffed(t) ? t : staffedFrom(t + 1));

/** A season in the day-grain form, somewhat more asked for than there is; the same for the same seed. */
export function crowdedSeason({ kilns: m, asks: n, seed, replan, alike = 1, fewHands = false }: SeasonKind): DayFields {
  const random = seeded(1 + seed * 7919 + m * 31 + n);
  random();
  const below = (count: number): number => Math.floor(random() * count);
  const C = Math.ceil(m / alike);
  const classOf = Array.from({ length: m }, (_, kiln) => Math.floor(kiln / alike));
  const busy: DayFields["busy"] = classOf.flatMap((_, k) => (random() < 0.6 ? [{ k, s: 0, e: staffedFrom(3 + below(9)), unload: true }] : []));
  const season = Math.ceil((n / m) * 11);
  const jobs = Array.from({ length: n }, (): Job => {
    const p = 5 + below(10) + below(10);
    const r = below(season);
    // The larger a piece, the fewer kilns take it; each step up costs nothing but its room.
    const size = below(C);
    const cls = Array.from({ length: C }, (_, one) => one).filter((one) => one >= size && one < size + 2 + below(1 + Math.ceil(C / 2)));
    return { p, r, d: r + p + 6 + below(45), w: WEIGHTS[below(WEIGHTS.length)] ?? 1, cls };
  });
  const room = { H: Math.max(2, (fewHands ? Math.floor : Math.ceil)(0.28 * m)), S: Math.max(1, Math.round(0.14 * m)), W: 5 };
  const fields: DayFields = { m, n, C, classOf, kilnsOf: Array.from({ length: C }, (_, cls) => classOf.flatMap((one, kiln) => (one === cls ? [kiln] : []))), ...room, T: season + 8 * Math.ceil(n / m) + 240, busy, jobs };
  return replan ? broken(booked(fields, random), below, random) : fields;
}

/** Gives most jobs a booking in the order they come, each where it is ready first. */
function booked(fields: DayFields, random: () => number): DayFields {
  const free = fields.classOf.map((_, kiln) => fields.busy.find(({ k }) => k === kiln)?.e ?? 0);
  const ops = new Map<number, number>();
  const steamed = new Map<number, number>();
  const used = (days: Map<number, number>, t: number): number => days.get(t) ?? 0;
  for (const { e } of fields.busy) ops.set(e, used(ops, e) + 1);
  const bookings = new Map<Job, Booking>();
  for (const job of fields.jobs.toSorted((a, b) => a.r - b.r)) {
    if (random() >= BOOKED) continue;
    const kilns = fields.classOf.flatMap((cls, kiln) => (job.cls.includes(cls) ? [{ kiln, cls }] : []));
    const best = kilns.reduce((one, other) => ((free[other.kiln] ?? 0) < (free[one.kiln] ?? 0) ? other : one));
    for (let s = staffedFrom(Math.max(job.r + 1, free[best.kiln] ?? 0)); ; s = staffedFrom(s + 1)) {
      const e = staffedFrom(s + job.p);
      const steam = lastFree(steamed, s, fields);
      if (steam < 0 || used(ops, s) >= fields.H || used(ops, e) >= fields.H) continue;
      for (const day of [s, e]) ops.set(day, used(ops, day) + 1);
      steamed.set(steam, used(steamed, steam) + 1);
      free[best.kiln] = e;
      bookings.set(job, { ...best, s });
      break;
    }
  }
  return { ...fields, jobs: fields.jobs.map((job) => withBooking(job, bookings.get(job), random)) };
}

function lastFree(steamed: ReadonlyMap<number, number>, s: number, { S, W }: DayFields): number {
  for (let t = s - 1; t >= Math.max(0, s - W); t--) if (isStaffed(t) && (steamed.get(t) ?? 0) < S) return t;
  return -1;
}

/** What moving a booking costs: three times as much where it was promised. */
function withBooking(job: Job, bk: Booking | undefined, random: () => number): Job {
  const times = random() < PROMISED ? 3 : 1;
  return bk === undefined ? job : { ...job, bk, fix: 4 * times, slope: (4 * times) / 10, clsMove: 3 * times };
}

/** One kiln in twelve is down for three weeks, and some firings take longer than they were booked for. */
function broken(fields: DayFields, below: (count: number) => number, random: () => number): DayFields {
  const down = Array.from({ length: Math.ceil(fields.m / 12) }, (_, i) => (i * 12 + below(Math.min(12, fields.m))) % fields.m);
  const outages = [...new Set(down)].map((k) => ({ k, s: Math.max(DOWN.from, fields.busy.find((one) => one.k === k)?.e ?? 0), e: DOWN.to }));
  return { ...fields, busy: [...fields.busy, ...outages], jobs: fields.jobs.map((job) => (random() < LENGTHENED ? { ...job, p: Math.round(LONGER * job.p) } : job)) };
}
