import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, afterEach, beforeEach, expect, it, vi } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { atInstant } = await import("@/lib/server/clock");
const { closeDatabase } = await import("@/lib/server/db");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { describedCasting, must } = await import("@/tests/helpers/booking");

const PATIENCE = { timeout: 60_000, interval: 100 };
const MONDAY = "2027-03-01T09:00:00Z";
const mailFolder = await mkdtemp(path.join(tmpdir(), "offer-mail-"));
const [owner, blocker] = [new pg.Client({ connectionString: database.ownerUrl }), new pg.Client({ connectionString: database.ownerUrl })];
await owner.connect();
await blocker.connect();
let shed: MadeWorkshop;
let workers: ChildProcess[] = [];

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
});
afterEach(() => {
  for (const worker of workers) worker.kill("SIGKILL");
  workers = [];
});
afterAll(async () => {
  await owner.end();
  await blocker.end();
  await closeDatabase();
  await database.drop();
  await rm(mailFolder, { recursive: true, force: true });
});

function startWorker(): ChildProcess {
  const worker = spawn(process.execPath, ["--no-deprecation", "--import", "tsx", "lib/cli/work.ts"], {
    env: { ...process.env, NODE_ENV: "test", DATABASE_URL: database.ownerUrl, APP_DATABASE_URL: database.appUrl, LEHRBOOK_CLOCK_START: MONDAY, LEHRBOOK_MAIL_FOLDER: mailFolder },
    stdio: "ignore",
  });
  workers.push(worker);
  return worker;
}

const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;
/** Sees only what is committed, as everybody does. */
const offers = () => rows("SELECT firing_id, ask_id, status, purposes, (SELECT array_agg(purpose ORDER BY purpose) FROM booking b WHERE b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND standing) AS booked FROM firing f WHERE workshop_id = $1", shed.workshopId);
const told = (table: "notice" | "mail") => rows(`SELECT member_id FROM ${table} WHERE workshop_id = $1`, shed.workshopId);

// The run is one statement, so it is cut off before it and behind it.
it.each(["firing", "mail"])("a worker killed while it offers, at its writing into %s: nothing is seen of it, and after the restart there is exactly one whole offer", async (table) => {
  const { askId } = await atInstant(Temporal.Instant.from(MONDAY), async () => {
    const castingId = await describedCasting(shed.member, "Gull");
    return must(await createAsk(shed.member, { castingId, fromDate: "2027-03-08", neededBy: "2027-04-20", importance: 2, note: "" }));
  });
  // Whoever writes into the table waits here, with all that was written before.
  await blocker.query("BEGIN");
  await blocker.query(`LOCK TABLE ${table} IN SHARE MODE`);
  const worker = startWorker();
  // A worker that has just started also deletes what has served, and may wait there with that.
  const waiting = () => rows("SELECT pid FROM pg_locks JOIN pg_stat_activity USING (pid) WHERE relation = $1::regclass AND NOT granted AND query NOT ILIKE '%delete from%'", table);
  await vi.waitFor(async () => expect(await waiting()).toHaveLength(1), PATIENCE);
  const [{ pid }] = await waiting();
  worker.kill("SIGKILL");
  await once(worker, "exit");
  await blocker.query("ROLLBACK");
  await vi.waitFor(async () => expect(await rows("SELECT 1 FROM pg_stat_activity WHERE pid = $1", pid)).toEqual([]), PATIENCE);
  expect([await offers(), await told("notice"), await told("mail")]).toEqual([[], [], []]);

  startWorker();
  await vi.waitFor(async () => expect(await rows("SELECT 1 FROM graphile_worker._private_jobs WHERE key = $1", `offers:${shed.workshopId}`)).toEqual([]), PATIENCE);
  const [offer, ...more] = await offers();
  expect(more).toEqual([]);
  expect(offer).toMatchObject({ ask_id: askId, status: "held" });
  expect(offer.booked).toEqual(offer.purposes.toSorted());
  expect([await told("notice"), await told("mail")]).toEqual([[{ member_id: shed.member.memberId }], [{ member_id: shed.member.memberId }]]);
}, 180_000);
