import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { freePort } from "@/lib/cli/embedded/free-port";
import { root, stateFolder } from "@/lib/cli/bootstrap.mjs";
import { buildPages } from "@/lib/cli/start/web-build";
import { startWebServer } from "@/lib/cli/start/web-server";
import { newScriptToken } from "@/lib/server/tokens";
import type { Who } from "@/lib/server/who";
import { book, measureRates, type Wish } from "./booking-rate";
import { seeded } from "./seeded";
import { benchDatabase, type BenchDatabase } from "./world/bench-database";
import { withPosters } from "./world/post";
import { seedRuns } from "./world/seed-runs";
import { pebble, writeRuns, writeWorld, type World } from "./world/write-world";

const DAY = 86_400_000;
const CLIENTS = 50;
const EQUIPMENT = { kilns: 200, steamers: 20, trolleys: 24 };
const BOOKINGS = 20_000;
/** Days on which runs are looked for, and how many kilns are taken of each. */
const DAYS = 60;
const KILNS_A_DAY = 12;
const POOL = 10;

/** Bookings over HTTP into two processes of the production build, beside plain inserts of the very same rows. */
export async function benchBooking(): Promise<void> {
  const database = await benchDatabase({ max_connections: "200" });
  await buildPages(root, stateFolder);
  const world = await writeWorld(database.owner, { ...EQUIPMENT, members: CLIENTS });
  await fill(database, world);
  const tokens = await giveTokens(database, world);
  const wishes = await findWishes(database, world, tokens);
  const ports = [await freePort(undefined), await freePort(undefined)];
  const servers = await Promise.all(ports.map((port) => startWebServer({ root, port, host: "127.0.0.1", environment: { ...process.env, ...database.environment, DATABASE_POOL: String(POOL) }, onLine: () => undefined })));
  try {
    await race(database, world, tokens, wishes, ports);
    await measureRates({ database, workshopId: world.workshopId, clients: CLIENTS, ports, connections: ports.length * POOL }, inNoOrder(wishes.slice(0, -KILNS_A_DAY)));
  } finally {
    for (const one of servers) await one.stop();
    const { closeDatabase } = await import("@/lib/server/db");
    await closeDatabase();
    await database.stop();
  }
}

async function fill({ owner }: BenchDatabase, world: World): Promise<void> {
  const now = Date.now();
  const today = now - (now % DAY);
  const runs = seedRuns({ ...EQUIPMENT, from: today - 20 * DAY, to: today + 548 * DAY, random: seeded(7) });
  const every = runs.length / (BOOKINGS / 4);
  await writeRuns(owner, world, runs.filter((_, i) => Math.floor(i / every) !== Math.floor((i - 1) / every)), now);
}

async function giveTokens({ owner }: BenchDatabase, { workshopId, members }: World): Promise<readonly string[]> {
  const tokens: string[] = [];
  for (const { memberId } of members) {
    const { token, tokenHash, prefix } = newScriptToken();
    await owner.query("INSERT INTO access_token (workshop_id, member_id, name, prefix, token_hash, scopes, created_at) VALUES ($1, $2, 'bench', $3, $4, '{read,plan,book}', now())", [workshopId, memberId, prefix, tokenHash]);
    tokens.push(token);
  }
  return tokens;
}

async function newCasting({ owner }: BenchDatabase, who: Who): Promise<string> {
  const castingId = randomUUID();
  await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, 'Pebble', $4)", [who.workshopId, castingId, who.memberId, JSON.stringify(pebble())]);
  return castingId;
}

/** Runs that are free, far enough apart to be booked all. */
async function findWishes(database: BenchDatabase, world: World, tokens: readonly string[]): Promise<readonly Wish[]> {
  const { findTime } = await import("@/lib/server/queries/find-time");
  const [first] = world.members;
  if (first === undefined) throw new Error("nobody");
  const castingId = await newCasting(database, first);
  const today = Temporal.Now.plainDateISO();
  const wishes: Wish[] = [];
  for (let i = 0; i < DAYS; i += 1) {
    const screen = await findTime(first, { castingId, notBefore: today.add({ days: 3 + 8 * i }).toString() });
    for (let k = 0; k < KILNS_A_DAY; k += 1) {
      const kilnId = world.kilnIds[(i * KILNS_A_DAY + k) % EQUIPMENT.kilns];
      const run = screen?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[0];
      const at = wishes.length % CLIENTS;
      const [who, token] = [world.members[at], tokens[at]];
      if (run === undefined || kilnId === undefined || who === undefined || token === undefined) continue;
      wishes.push({ token, castingId: await newCasting(database, who), kilnId, kilnFrom: run.kilnFrom, steamFrom: run.steamFrom });
    }
  }
  return wishes;
}

/** Fifty clients after one week of one kiln. */
async function race(database: BenchDatabase, world: World, tokens: readonly string[], wishes: readonly Wish[], ports: readonly number[]): Promise<void> {
  const wish = wishes.at(-1);
  if (wish === undefined) throw new Error("nothing is free");
  const all: Wish[] = [];
  for (const [i, who] of world.members.entries()) all.push({ ...wish, token: tokens[i] ?? "", castingId: await newCasting(database, who) });
  const answers = await withPosters(ports, CLIENTS, (posters) => Promise.all(all.map((one, i) => book(posters, i, one))));
  const count = (status: number) => answers.filter((answer) => answer.status === status).length;
  const { rows } = await database.owner.query<{ whole: string; partly: string }>(
    `SELECT count(*) FILTER (WHERE n = 4) AS whole, count(*) FILTER (WHERE n <> 4) AS partly FROM (
       SELECT f.firing_id, count(b.booking_id) AS n FROM firing f LEFT JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.standing
        JOIN firing_casting c ON c.workshop_id = f.workshop_id AND c.firing_id = f.firing_id WHERE f.workshop_id = $1 AND c.casting_id = ANY ($2) GROUP BY 1) runs`,
    [world.workshopId, all.map(({ castingId }) => castingId)],
  );
  process.stdout.write(`booking, ${CLIENTS} clients after one week, booked: ${count(201)} of ${CLIENTS} (refused as taken ${count(409)}, anything else ${CLIENTS - count(201) - count(409)}; whole runs ${rows[0]?.whole ?? "?"}, partial ${rows[0]?.partly ?? "?"})\n`);
  const other = answers.find(({ status }) => status !== 201 && status !== 409);
  if (other !== undefined) process.stdout.write(`booking, ${CLIENTS} clients after one week, the first of anything else: ${other.status} ${other.body.slice(0, 200)}\n`);
}

/** People who know nothing of each other: next to none of them ask for the same days at the same moment. */
function inNoOrder(wishes: readonly Wish[]): readonly Wish[] {
  const random = seeded(11);
  return wishes.map((wish) => ({ wish, at: random() })).sort((a, b) => a.at - b.at).map(({ wish }) => wish);
}
