import { randomUUID } from "node:crypto";
import pg from "pg";
import { seeded } from "@/lib/cli/bench/seeded";
import { pebble, writeWorld, type World } from "@/lib/cli/bench/world/write-world";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { migrate } from "@/lib/server/migrate";
import { newScriptToken } from "@/lib/server/tokens";
import { AppProcess } from "./app-process";
import { CHECKS } from "./checks";
import type { Asked } from "./history";
import { Member } from "./member";
import { startMortalCluster, type MortalCluster } from "./mortal-cluster";
import { readFacts } from "./read-facts";
import { Wire } from "./wire";

export type OrdealWish = { readonly seconds: number; readonly seed: number; readonly say: (line: string) => void };
export type Verdict = { readonly faults: readonly string[]; readonly acknowledged: number; readonly blows: number };

const SECRET = "only for the ordeal, never for a workshop";
const WORLD = { kilns: 4, steamers: 2, trolleys: 2, members: 6 };
const CASTINGS_EACH = 4;

/** Lets members loose on two processes and one database, kills what can be killed, and proves afterwards that all is well. */
export async function runOrdeal({ seconds, seed, say }: OrdealWish): Promise<Verdict> {
  const cluster = await startMortalCluster();
  const random = seeded(seed);
  const apps: AppProcess[] = [];
  try {
    await migrate(cluster.url, { authSecret: SECRET });
    const environment = { DATABASE_URL: cluster.url, APP_DATABASE_URL: appDatabaseUrl(cluster.url, SECRET), AUTH_SECRET: SECRET, LEHRBOOK_URL: "http://localhost:3000", LEHRBOOK_API_PER_MINUTE: "1000000" };
    for (let i = 0; i < 2; i += 1) apps.push(await AppProcess.start(environment));
    const { world, members, wires } = await people(cluster, apps, random);
    say(`${members.length} members, ${WORLD.kilns} kilns, 2 processes, ${seconds} s, seed ${seed}`);
    const until = Date.now() + seconds * 1000;
    const over = () => Date.now() > until;
    const lives = members.map((member) => member.live(over));
    const blows = await strike({ cluster, apps, wires, random, over, say, done: () => members.reduce((sum, { history }) => sum + history.length, 0) });
    await Promise.all(lives);
    return await judge(cluster, world, members.flatMap(({ history }) => history), blows, say);
  } finally {
    for (const app of apps) await app.kill();
    await cluster.stop();
  }
}

async function people(cluster: MortalCluster, apps: readonly AppProcess[], random: () => number) {
  const owner = new pg.Client({ connectionString: cluster.url });
  await owner.connect();
  const world = await writeWorld(owner, WORLD);
  const everybody = new Set<string>();
  const members: Member[] = [];
  const wires: Wire[] = [];
  for (const who of world.members) {
    const { token, tokenHash, prefix } = newScriptToken();
    await owner.query("INSERT INTO access_token (workshop_id, member_id, name, prefix, token_hash, scopes, created_at) VALUES ($1, $2, 'ordeal', $3, $4, '{read,plan,book}', now())", [world.workshopId, who.memberId, prefix, tokenHash]);
    const castingIds = Array.from({ length: CASTINGS_EACH }, () => randomUUID());
    for (const id of castingIds) await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, 'Pebble', $4)", [world.workshopId, id, who.memberId, JSON.stringify(pebble())]);
    const wire = new Wire(apps.map(({ port }) => port), token, random);
    wires.push(wire);
    members.push(new Member(who, castingIds, wire, random, everybody));
  }
  await owner.end();
  return { world, members, wires };
}

type Field = {
  readonly cluster: MortalCluster;
  readonly apps: readonly AppProcess[];
  readonly wires: readonly Wire[];
  readonly random: () => number;
  readonly over: () => boolean;
  readonly say: (line: string) => void;
  readonly done: () => number;
};

/** One blow after another, with time between them for something to be done. */
async function strike({ cluster, apps, wires, random, over, say, done }: Field): Promise<number> {
  let blows = 0;
  const from = Date.now();
  await pause(4000);
  while (!over()) {
    const chance = random();
    blows += 1;
    const app = apps[Math.floor(random() * apps.length)];
    const what = chance < 0.35 ? "a process is killed" : chance < 0.5 ? "the database is killed" : chance < 0.75 ? "the database ends its connections" : "the clients' connections are cut";
    if (chance < 0.35) await app?.killAndRestart();
    else if (chance < 0.5) await cluster.killAndRestart();
    else if (chance < 0.75) await endConnections(cluster, random);
    else for (const wire of wires) wire.cut();
    say(`${((Date.now() - from) / 1000).toFixed(0).padStart(4)} s  ${String(done()).padStart(5)} changes asked for  ${what}`);
    await pause(700 + random() * 2300);
  }
  return blows;
}

async function endConnections({ url }: MortalCluster, random: () => number): Promise<void> {
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  await owner.query("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = 'lehrbook_app' AND $1 < random()", [random() / 2]);
  await owner.end();
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

async function judge(cluster: MortalCluster, world: World, history: readonly Asked[], blows: number, say: (line: string) => void): Promise<Verdict> {
  const facts = await readFacts(cluster.url, world.workshopId);
  const count = (outcome: Asked["outcome"]) => history.filter((one) => one.outcome === outcome).length;
  say(`${count("acknowledged")} changes acknowledged, ${count("refused")} refused, ${count("unknown")} never known; ${blows} blows; ${facts.firings.length} runs, ${facts.audits.length} entries in the record`);
  const faults = CHECKS.flatMap(({ name, find }) => {
    const found = find(history, facts);
    say(`${found.length === 0 ? "holds " : "BROKEN"}  ${name}${found.length === 0 ? "" : `: ${found.slice(0, 5).join("; ")}`}`);
    return found;
  });
  return { faults, acknowledged: count("acknowledged"), blows };
}
