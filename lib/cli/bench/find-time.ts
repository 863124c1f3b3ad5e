import { benchDatabase, type BenchDatabase } from "./world/bench-database";
import { seedRuns } from "./world/seed-runs";
import { pebble, writeRuns, writeWorld, type World } from "./world/write-world";
import { seeded } from "./seeded";

const DAY = 86_400_000;
const AHEAD_DAYS = 548;
const SEARCHES = 40;

type Size = { readonly kilns: number; readonly steamers: number; readonly trolleys: number; readonly bookings: number; readonly allowedMs: number };

/** Finding time in process, database included: the plan of each kiln is made before. */
export async function benchFindTime(): Promise<void> {
  const database = await benchDatabase();
  try {
    await measure(database, { kilns: 12, steamers: 2, trolleys: 3, bookings: 0, allowedMs: 30 });
    for (const bookings of [125_000, 1_000_000]) await measure(database, { kilns: 200, steamers: 20, trolleys: 24, bookings, allowedMs: 150 });
  } finally {
    const { closeDatabase } = await import("@/lib/server/db");
    await closeDatabase();
    await database.stop();
  }
}

async function measure(database: BenchDatabase, { kilns, steamers, trolleys, bookings, allowedMs }: Size): Promise<void> {
  const { owner } = database;
  const { createCasting } = await import("@/lib/server/commands/create-casting");
  const { findTime } = await import("@/lib/server/queries/find-time");
  const world = await writeWorld(owner, { kilns, steamers, trolleys, members: 1 });
  const written = await fill(database, world, { kilns, steamers, trolleys }, bookings);
  const [who] = world.members;
  if (who === undefined) throw new Error("nobody");
  const made = await createCasting(who, { title: "Pebble", input: pebble(), neededBy: null, requestKey: `bench-${kilns}-${bookings}` });
  if (!made.ok) throw new Error(made.problems[0].message);
  const times: number[] = [];
  let offered = 0;
  for (let i = -5; i < SEARCHES; i += 1) {
    const start = performance.now();
    const screen = await findTime(who, { castingId: made.value.castingId });
    if (i >= 0) times.push(performance.now() - start);
    offered = (screen?.offers.kilns ?? []).reduce((sum, kiln) => sum + kiln.runs.length, 0);
  }
  times.sort((a, b) => a - b);
  const at = (share: number): string => (times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? 0).toFixed(1);
  const ahead = await owner.query<{ n: string }>("SELECT count(*) AS n FROM booking WHERE workshop_id = $1 AND ends_at > now()", [world.workshopId]);
  process.stdout.write(
    `find time, ${kilns} kilns, ${written} bookings of which ${ahead.rows[0]?.n ?? 0} to come, p95: ${at(0.95)} ms (median ${at(0.5)}, ${SEARCHES} searches, ${offered} runs offered each; goal ${allowedMs})\n`,
  );
}

/** A calendar full for 18 months, and as much past as it takes to have so many bookings. */
async function fill({ owner }: BenchDatabase, world: World, equipment: { kilns: number; steamers: number; trolleys: number }, bookings: number): Promise<number> {
  const now = Date.now();
  const today = now - (now % DAY);
  const random = seeded(7);
  const runsADay = equipment.kilns / 10;
  const ahead = AHEAD_DAYS * runsADay * 4;
  const pastDays = Math.max(30, Math.ceil((bookings - ahead) / (runsADay * 4)));
  const runs = seedRuns({ ...equipment, from: today - pastDays * DAY, to: today + AHEAD_DAYS * DAY, random });
  const kept = bookings === 0 ? runs : runs.slice(Math.max(0, runs.length - Math.ceil(bookings / 4)));
  await writeRuns(owner, world, kept, now);
  return kept.length * 4;
}
