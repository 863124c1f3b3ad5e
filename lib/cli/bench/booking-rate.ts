import { randomUUID } from "node:crypto";
import pg from "pg";
import { insertPlainly, readBooked, unbook, type BookedRows } from "./plain-inserts";
import type { BenchDatabase } from "./world/bench-database";
import { computing, type Computing } from "./world/computing";
import { withPosters, type Answer, type Poster } from "./world/post";

export type Wish = { readonly token: string; readonly castingId: string; readonly kilnId: string; readonly kilnFrom: string; readonly steamFrom: string | null };

type At = { readonly database: BenchDatabase; readonly workshopId: string; readonly clients: number; readonly ports: readonly number[]; readonly connections: number };
/** Milliseconds; processor time in milliseconds for each run, where the system tells it. */
type Timed = { readonly runs: number; readonly ms: number; readonly each: readonly number[]; readonly computed: Computing | undefined };
type Booked = Timed & { readonly firingIds: readonly string[]; readonly refused: readonly Answer[] };

export function book(posters: readonly Poster[], at: number, { token, castingId, kilnId, kilnFrom, steamFrom }: Wish): Promise<Answer> {
  const one = posters[at % posters.length];
  if (one === undefined) throw new Error("no process");
  return one.post("/api/v1/runs", token, randomUUID(), { castingId, kilnId, kilnFrom, ...(steamFrom === null ? {} : { steamFrom }) });
}

/** A process compiles what it does often while it does it; its thousandth booking takes half of its first one's time. */
const ROUNDS_BEFORE = 5;

/**
 * How fast these are booked, and how fast the rows they leave go in as plain inserts. Both are done before and taken away
 * again: what a process or a connection learns once in its life is not what a booking costs.
 */
export async function measureRates(at: At, wishes: readonly Wish[]): Promise<void> {
  const { database, workshopId } = at;
  for (let round = 0; round < ROUNDS_BEFORE; round += 1) await unbook(database.owner, workshopId, (await bookAll(at, wishes)).firingIds);
  const http = await bookAll(at, wishes);
  const rows = await readBooked(database.owner, workshopId, http.firingIds);
  const pool = new pg.Pool({ connectionString: database.appUrl, max: at.connections });
  await unbook(database.owner, workshopId, http.firingIds);
  await insertAll(at, pool, rows);
  await unbook(database.owner, workshopId, http.firingIds);
  const plain = await insertAll(at, pool, rows);
  await pool.end();
  print(at, http, plain);
}

async function bookAll({ database, clients, ports }: At, wishes: readonly Wish[]): Promise<Booked> {
  const answers: Answer[] = [];
  let next = 0;
  const timed = await withPosters(ports, clients, (posters) =>
    measured(database, wishes.length, clients, async (client) => {
      for (let wish = wishes[next++]; wish !== undefined; wish = wishes[next++]) answers.push(await book(posters, client, wish));
    }),
  );
  const booked = answers.filter(({ status }) => status === 201);
  return {
    ...timed,
    runs: booked.length,
    each: answers.map(({ ms }) => ms),
    firingIds: booked.map(({ body }) => (JSON.parse(body) as { firingId: string }).firingId),
    refused: answers.filter(({ status }) => status !== 201),
  };
}

async function insertAll({ database, workshopId, clients }: At, pool: pg.Pool, all: readonly BookedRows[]): Promise<Timed> {
  const each: number[] = [];
  let next = 0;
  const timed = await measured(database, all.length, clients, async () => {
    for (let rows = all[next++]; rows !== undefined; rows = all[next++]) {
      const asked = performance.now();
      await insertPlainly(pool, workshopId, rows);
      each.push(performance.now() - asked);
    }
  });
  return { ...timed, each };
}

/** Clients side by side, each doing one after another. */
async function measured({ owner }: BenchDatabase, runs: number, clients: number, work: (client: number) => Promise<void>): Promise<Timed> {
  const backend = (await owner.query<{ pid: number }>("SELECT pg_backend_pid() AS pid")).rows[0]?.pid ?? 0;
  const before = computing(backend);
  const from = performance.now();
  await Promise.all(Array.from({ length: clients }, (_, client) => work(client)));
  const ms = performance.now() - from;
  const after = computing(backend);
  const of = (part: keyof Computing) => (1000 * ((after?.[part] ?? 0) - (before?.[part] ?? 0))) / runs;
  return { runs, ms, each: [], computed: before === undefined ? undefined : { database: of("database"), web: of("web"), clients: of("clients") } };
}

function print({ clients, ports }: At, http: Booked, plain: Timed): void {
  const rate = ({ runs, ms }: Timed) => (1000 * runs) / ms;
  const say = (what: string, value: string) => process.stdout.write(`${what}: ${value}\n`);
  const plainly = "the same rows as plain inserts";
  say(`booking over HTTP, ${ports.length} processes, ${clients} clients`, `${rate(http).toFixed(0)} runs/s (${http.runs} of ${http.each.length} booked)`);
  say(`${plainly}, a transaction for each run, ${clients} clients`, `${rate(plain).toFixed(0)} runs/s`);
  say("booking over HTTP, of the plain rate", `${((100 * rate(http)) / rate(plain)).toFixed(0)} % (goal 60)`);
  say("booking over HTTP, p99", `${share(http.each, 0.99)} ms (median ${share(http.each, 0.5)}; goal 250)`);
  const least = ((1000 * clients) / rate(plain)).toFixed(0);
  say(`${plainly}, p99`, `${share(plain.each, 0.99)} ms (median ${share(plain.each, 0.5)}; ${clients} clients that wait for each other cannot be faster than ${clients} runs at this rate: ${least} ms)`);
  say("booking over HTTP, processor time for a run", computed(http));
  say(`${plainly}, processor time for a run`, computed(plain));
  if (http.computed !== undefined && plain.computed !== undefined) {
    say("booking over HTTP, of the plain rate where the database alone is what is short", `${((100 * plain.computed.database) / http.computed.database).toFixed(0)} %`);
  }
  const [refused] = http.refused;
  if (refused !== undefined) say("booking over HTTP, refused", `${http.refused.length} runs (the first: ${refused.status} ${refused.body.slice(0, 200)})`);
}

function computed({ computed: of }: Timed): string {
  if (of === undefined) return "not told by this system";
  return `PostgreSQL ${of.database.toFixed(1)} ms, web ${of.web.toFixed(1)} ms, the bench itself ${of.clients.toFixed(1)} ms`;
}

/** The time within which this share of them was done, whole milliseconds. */
function share(times: readonly number[], of: number): string {
  const sorted = times.toSorted((a, b) => a - b);
  return (sorted[Math.min(sorted.length - 1, Math.floor(of * sorted.length))] ?? 0).toFixed(0);
}
