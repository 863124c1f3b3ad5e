import { randomUUID } from "node:crypto";
import type { OfferedRun } from "@/lib/server/runs/run-offers";
import type { Who } from "@/lib/server/who";
import { benchDatabase, type BenchDatabase } from "./world/bench-database";
import { chooseLately, growPast } from "./world/grow-past";
import { seedRuns } from "./world/seed-runs";
import { pebble, writeRuns, writeWorld, type World } from "./world/write-world";
import { seeded } from "./seeded";

const DAY = 86_400_000;
const AHEAD_DAYS = 548;
const SEARCHES = 60;
/** Before any is timed, so that the code is compiled and the connections have planned. */
const WARM = 25;
/** Of the past that is copied again and again: whole weeks, so that copies fall on the same weekdays. */
const STRETCH_DAYS = 140;
/** Bookings that lie behind, ten times as many each time. */
const PASTS = [10_000, 100_000, 1_000_000];

type Equipment = { readonly kilns: number; readonly steamers: number; readonly trolleys: number };

/** Finding time in process, database included: the plan of each kiln is made before. */
export async function benchFindTime(): Promise<void> {
  const database = await benchDatabase();
  try {
    const few = { kilns: 12, steamers: 2, trolleys: 3 };
    await measure(database, await fill(database, few, 30), few.kilns, 30);
    await growing(database);
  } finally {
    const { closeDatabase } = await import("@/lib/server/db");
    await closeDatabase();
    await database.stop();
  }
}

async function growing(database: BenchDatabase): Promise<void> {
  const many = { kilns: 200, steamers: 20, trolleys: 24 };
  const world = await fill(database, many, STRETCH_DAYS);
  const inCopy = await chooseLately(database.owner, world, STRETCH_DAYS);
  const medians: number[] = [];
  let copies = 0;
  for (const past of PASTS) {
    const more = Math.max(0, Math.ceil((past - (await countOf(database, world, "<="))) / inCopy));
    await growPast(database.owner, STRETCH_DAYS, copies + 1, copies + more);
    copies += more;
    medians.push(await measure(database, world, many.kilns, 150));
  }
  const growth = ((medians.at(-1) ?? NaN) / (medians[0] ?? NaN)) ** (1 / (medians.length - 1));
  process.stdout.write(`find time, 200 kilns, everything read anew, for ten times as many past bookings: × ${growth.toFixed(2)} in the median (logarithmic would be × ${(6 / 5).toFixed(2)})\n`);
}

/** Each search after somebody has booked or cancelled; and each when nothing that was read before counts. The median of these, milliseconds. */
async function measure(database: BenchDatabase, world: World, kilns: number, allowedMs: number): Promise<number> {
  const { createCasting } = await import("@/lib/server/commands/create-casting");
  const { findTime } = await import("@/lib/server/queries/find-time");
  const { bookRun } = await import("@/lib/server/commands/book-run");
  const { cancelRun } = await import("@/lib/server/commands/cancel-run");
  const [who] = world.members;
  if (who === undefined) throw new Error("nobody");
  const casting = async (of: Who): Promise<string> => {
    const made = await createCasting(of, { title: "Pebble", input: pebble(), neededBy: null, requestKey: randomUUID() });
    if (!made.ok) throw new Error(made.problems[0].message);
    return made.value.castingId;
  };
  const castingId = await casting(who);
  let offered = 0;
  let changes = 0;
  let firingId: string | null = null;
  const search = async (): Promise<number> => {
    const start = performance.now();
    const screen = await findTime(who, { castingId });
    const took = performance.now() - start;
    const offers = (screen?.offers.kilns ?? []).flatMap(({ runs }) => runs);
    offered = offers.length;
    firingId = await change(firingId, offers[(7 * changes) % Math.max(1, offers.length)]);
    changes += 1;
    return took;
  };
  /** Somebody books one of the runs that were offered, and cancels it before the next but one search. */
  const change = async (standing: string | null, wish: OfferedRun | undefined): Promise<string | null> => {
    if (standing === null && wish === undefined) throw new Error("nothing is free");
    const requestKey = randomUUID();
    if (standing !== null || wish === undefined) {
      const over = await cancelRun(who, { firingId: standing, requestKey });
      if (!over.ok) throw new Error(over.problems[0].message);
      return null;
    }
    const { kilnId, kilnFrom, steamFrom } = wish;
    const made = await bookRun(who, { castingId: await casting(who), kilnId, kilnFrom, ...(steamFrom === null ? {} : { steamFrom }), requestKey });
    if (!made.ok) throw new Error(made.problems[0].message);
    return made.value.firingId;
  };
  const anewOnce = async (): Promise<number> => {
    await database.owner.query("UPDATE workshop SET ground_id = gen_random_uuid() WHERE workshop_id = $1", [world.workshopId]);
    return search();
  };
  const [after, anew] = [await timesOf(search), await timesOf(anewOnce)];
  const [ahead, behind] = [await countOf(database, world, ">"), await countOf(database, world, "<=")];
  const at = (times: readonly number[], share: number) => times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? NaN;
  const words = (times: readonly number[]) => `p95: ${at(times, 0.95).toFixed(1)} ms (median ${at(times, 0.5).toFixed(1)}`;
  const what = `find time, ${kilns} kilns, ${ahead} bookings to come and ${behind} behind`;
  process.stdout.write(`${what}, ${words(after)}, ${after.length} searches, each after a booking or a cancellation, ${offered} runs offered; goal ${allowedMs})\n${what}, everything read anew, as after a change of hours or equipment, ${words(anew)})\n`);
  return at(anew, 0.5);
}

async function timesOf(search: () => Promise<number>): Promise<readonly number[]> {
  const times: number[] = [];
  for (let i = -WARM; i < SEARCHES; i += 1) {
    const took = await search();
    if (i >= 0) times.push(took);
  }
  return times.sort((a, b) => a - b);
}

async function countOf({ owner }: BenchDatabase, { workshopId }: World, when: ">" | "<="): Promise<number> {
  const { rows } = await owner.query<{ n: number }>(`SELECT count(*)::int AS n FROM booking WHERE workshop_id = $1 AND ends_at ${when} now()`, [workshopId]);
  return rows[0]?.n ?? 0;
}

/** A calendar full for 18 months, and for some days behind. */
async function fill({ owner }: BenchDatabase, equipment: Equipment, pastDays: number): Promise<World> {
  const world = await writeWorld(owner, { ...equipment, members: 1 });
  const now = Date.now();
  const today = now - (now % DAY);
  await writeRuns(owner, world, seedRuns({ ...equipment, from: today - pastDays * DAY, to: today + AHEAD_DAYS * DAY, random: seeded(7) }), now);
  return world;
}
