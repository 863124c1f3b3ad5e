import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { Outcome } from "@/lib/domain/refusal";
import { wallInstant } from "@/lib/domain/time/staffed-hours";
import type { WantedMove } from "@/lib/server/ways-out/place-moves";
import { benchDatabase } from "../world/bench-database";
import { bookedWorld, type BookedWorld } from "../world/booked-world";
import { say, timed } from "./say";

const BOOKINGS = 80;
const ASKS = 31;
const MOVES = 35;
const SEASON_MOVES = 66;
const WEEKS_ON = 20;
/** There and back again, each time. */
const ROUNDS = 3;

/** How long a settlement takes to be tried out to the quarter hour, and to be accepted: written, checked and committed. Database included. */
export async function benchAccepting(): Promise<void> {
  const database = await benchDatabase();
  try {
    const world = await bookedWorld(database.owner, { kilns: 12, steamers: 3, trolleys: 4, members: 12, bookings: BOOKINGS, asks: ASKS });
    const half = world.runs.slice(0, MOVES);
    const took: Took[] = [];
    for (let round = 0; round < ROUNDS; round++) for (const weeks of [WEEKS_ON, 0]) took.push(await move(world, half, weeks, null));
    print(`accept ${MOVES} moves`, took);
    print(`accept a season of ${SEASON_MOVES} moves, ${ASKS} of them asks`, [await move(world, [...half, ...world.asks], WEEKS_ON, await world.season())]);
  } finally {
    const { closeDatabase } = await import("@/lib/server/db");
    await closeDatabase();
    await database.stop();
  }
}

type Took = { readonly accepted: number; readonly cpu: number; readonly tried: number };

function print(what: string, took: readonly Took[]): void {
  const of = (pick: (one: Took) => number): string => {
    const sorted = took.map(pick).sort((a, b) => a - b);
    return `${(sorted[sorted.length >> 1] ?? NaN).toFixed(2)} s${sorted.length === 1 ? "" : ` (slowest ${(sorted.at(-1) ?? NaN).toFixed(2)})`}`;
  };
  say(what, `${of(({ accepted }) => accepted)}, goal 1, of which computing in this process ${of(({ cpu }) => cpu)}; tried out in ${of(({ tried }) => tried)}`);
}

async function move({ manager, firstDay }: BookedWorld, runs: BookedWorld["runs"], weeks: number, season: string | null): Promise<Took> {
  const { acceptSettlement } = await import("@/lib/server/commands/accept-settlement");
  const { tryOut } = await import("@/lib/server/ways-out/try-out");
  const { clashGround } = await import("@/lib/server/ways-out/ways-out");
  const from = firstDay.add({ weeks });
  const wanted = runs.map(({ runId, isAsk, homeId, awayId, day }): WantedMove => {
    const date = from.add({ days: day });
    return { runId, isAsk, kilnId: weeks === 0 ? homeId : awayId, from: wallInstant(date, 0, manager.timeZone), until: wallInstant(date.add({ days: 6 }), 0, manager.timeZone) };
  }).toSorted((a, b) => Temporal.Instant.compare(a.from, b.from));
  const tried = await timed(() => tryOut(manager, wanted));
  const moves = must(tried.value).map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }));
  const { fingerprint, today } = await clashGround(manager, season === null ? undefined : { from: firstDay, to: firstDay.add({ months: 12 }) });
  if (!today.equals(firstDay)) throw new Error("the day has changed; measure again");
  const order = { ...(season === null ? { kind: "by-hand" } : { kind: "season", replanId: season }), moves, fingerprint, reason: "The hall is painted in those weeks.", requestKey: randomUUID() };
  const { value, seconds, cpu } = await timed(() => acceptSettlement(manager, order));
  if (must(value).moved.length !== runs.length) throw new Error("not all of them moved");
  return { accepted: seconds, cpu, tried: tried.seconds };
}

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
}
