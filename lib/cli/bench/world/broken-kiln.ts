import type { ClashGround, MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { withStandingRoom } from "@/lib/domain/settling/clash/standing-room";
import { seeded } from "../seeded";

const DAYS = 182;
const KILNS = 12;

/** A calendar booked first come, first served, whose first kiln then breaks for three weeks. The same for the same seed. */
export function brokenKiln(bookings: number, seed: number): ClashGround {
  const random = seeded(11 * seed);
  random();
  const below = (n: number): number => Math.floor(random() * n);
  const kilns = Array.from({ length: KILNS }, (_, i) => ({ kilnId: `kiln ${i}`, name: `Kiln ${i}`, powerKw: 9 }));
  const staffed = (day: number): boolean => day % 7 < 5;
  const on = (amount: number): number[] => Array.from({ length: DAYS }, (_, day) => (staffed(day) ? amount : 0));
  const next = (day: number): number => (staffed(day) ? day : next(day + 1));
  const free = kilns.map(() => 1 + below(10));
  const runs = Array.from({ length: bookings }, (_, i): MovableRun => {
    const first = below(KILNS);
    const fits = [first, (first + 1 + below(3)) % KILNS, (first + 5) % KILNS, (first + 8) % KILNS];
    const days = 8 + below(13);
    const kiln = fits.reduce((best, one) => ((free[one] ?? 0) < (free[best] ?? 0) ? one : best));
    const day = next(free[kiln] ?? 1);
    free[kiln] = next(day + days) + below(4);
    return {
      runId: `run ${i}`, title: `Run ${i}`, memberName: `Member ${i % 30}`, firmness: i % 5 === 0 ? "promised" : "booked", standing: { kilnId: `kiln ${kiln}`, day },
      daysByKiln: Object.fromEntries(fits.map((one) => [`kiln ${one}`, days])), earliest: Math.min(day, 1 + below(20)), latest: null, neededBy: day + days + below(21), importance: 1 + below(3),
      steams: true, hands: 1, heatingDays: 2,
    };
  });
  const ground = { kilns, runs, taken: [{ kilnId: "kiln 0", from: 10, to: 31, holder: "a burnt element" }], handsOn: on(3), liftsOn: on(16), steamersOn: on(2), steamWindow: 21, powerLeftKw: null };
  return withStandingRoom(ground, { lifts: new Set(), power: new Set() });
}

/** The same clash when only so many of its bookings may move: all others stay where they stand, except in the broken kiln. */
export function fewMayMove(all: ClashGround, free: number): ClashGround {
  const nearest = all.runs.toSorted((a, b) => distance(a) - distance(b));
  const stay = nearest.slice(free);
  const taken = stay.flatMap(({ standing, daysByKiln, title }) => (standing === null ? [] : [{ kilnId: standing.kilnId, from: standing.day, to: staffedFrom(standing.day + (daysByKiln[standing.kilnId] ?? 0)), holder: title }]));
  const count = (days: readonly number[], day: number): number => days.filter((one) => one === day).length;
  const lifts = taken.flatMap(({ from, to }) => [from, to]);
  const steamed = taken.map(({ from }) => staffedBefore(from));
  return {
    ...all,
    runs: nearest.slice(0, free),
    taken: [...all.taken, ...taken],
    liftsOn: all.liftsOn.map((room, day) => Math.max(0, room - count(lifts, day))),
    steamersOn: all.steamersOn.map((room, day) => Math.max(0, room - count(steamed, day))),
  };
}

/** Days between a booking and the outage; those in the broken kiln come first of all. */
function distance({ standing }: MovableRun): number {
  if (standing === null || (standing.kilnId === "kiln 0" && standing.day < 31)) return -1;
  return Math.abs(standing.day - 20);
}

function staffedFrom(day: number): number {
  return day % 7 < 5 ? day : staffedFrom(day + 1);
}

function staffedBefore(day: number): number {
  return (day - 1) % 7 < 5 ? day - 1 : staffedBefore(day - 1);
}
