import { randomBytes } from "node:crypto";
import { Logger, runOnce } from "graphile-worker";
import pg from "pg";
import { afterAll, beforeAll, expect, inject, it, vi } from "vitest";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { migrate } from "@/lib/server/migrate";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { startSmtp } from "@/tests/helpers/smtp";
import { TEST_AUTH_SECRET } from "@/tests/helpers/test-secret";

/** The owner of the database is neither superuser nor above row-level security, as with most who rent a database. */
const name = `lehrbook_rented_${randomBytes(4).toString("hex")}`;
const { adminUrl } = inject("postgres");
const smtp = await startSmtp();
const url = (user?: string) => {
  const address = new URL(adminUrl);
  address.pathname = `/${name}`;
  if (user !== undefined) [address.username, address.password] = [user, user];
  return address.toString();
};
process.env["APP_DATABASE_URL"] = appDatabaseUrl(url(), TEST_AUTH_SECRET);
process.env["AUTH_SECRET"] = TEST_AUTH_SECRET;
process.env["LEHRBOOK_SMTP_URL"] = smtp.url;
const { now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { freeTheDead } = await import("@/lib/server/jobs/living-workers");
const { TASKS } = await import("@/lib/server/jobs/tasks");
const { tell } = await import("@/lib/server/tell");
let admin: pg.Client;
let pool: pg.Pool;
let shed: MadeWorkshop;

beforeAll(async () => {
  admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  await admin.query(`CREATE ROLE ${name} LOGIN NOSUPERUSER NOBYPASSRLS PASSWORD '${name}'`);
  await admin.query(`CREATE DATABASE ${name} OWNER ${name}`);
  await migrate(url(name));
  pool = new pg.Pool({ connectionString: url(name), max: 3 });
  shed = await makeWorkshop(url());
});
afterAll(async () => {
  await pool.end();
  await closeDatabase();
  await smtp.stop();
  // A pool has ended before its connections have: cut off by force, they would complain.
  await vi.waitFor(async () => expect((await admin.query("SELECT 1 FROM pg_stat_activity WHERE datname = $1", [name])).rows).toEqual([]), { timeout: 20_000 });
  await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await admin.query(`DROP ROLE ${name}`);
  await admin.end();
});

const work = () => runOnce({ pgPool: pool, taskList: TASKS, logger: new Logger(() => () => undefined), noHandleSignals: true });

it("sends what a command wrote, freed from a worker that died with it", async () => {
  await inWorkshop(shed.workshopId, (tx) => tell({ tx, now: now(), who: shed.manager }, { to: [shed.member.memberId], kind: "moved", text: "Your run was moved.", href: "/" }));
  await pool.query("UPDATE graphile_worker._private_jobs SET locked_by = 'worker-dead', locked_at = now()");
  await work();
  expect(smtp.received).toEqual([]);
  await freeTheDead(pool);
  await work();
  expect(smtp.received.map(({ to }) => to)).toEqual([shed.member.email]);
});

it("finds every workshop for the mail of tomorrow, and sees no more of them than that", async () => {
  const { rows } = await pool.query("SELECT workshop_id FROM workshop");
  expect(rows).toEqual([{ workshop_id: shed.workshopId }]);
  for (const table of ["member", "mail", "booking"]) expect((await pool.query(`SELECT 1 FROM ${table}`)).rows).toEqual([]);
  await pool.query("SELECT graphile_worker.add_job('tell-tomorrow')");
  await work();
  expect((await pool.query("SELECT last_error FROM graphile_worker.jobs")).rows).toEqual([]);
});

it("deletes what has served in every workshop, and could not delete what is younger if it asked to", async () => {
  const { workshopId, member } = shed;
  const receipt = (key: string, age: string) => inside.query("INSERT INTO receipt (workshop_id, member_id, request_key, command, answer, at) VALUES ($1, $2, $3, 'book-run', '{}', now() - $4::interval)", [workshopId, member.memberId, key, age]);
  const inside = new pg.Client({ connectionString: url() });
  await inside.connect();
  try {
    await inside.query("INSERT INTO notice (workshop_id, member_id, text, href, read_at) VALUES ($1, $2, 'read', '/', now() - interval '90 days'), ($1, $2, 'read later', '/', now() - interval '89 days 23 hours')", [workshopId, member.memberId]);
    await receipt("over-over", "30 days");
    await receipt("young-young", "29 days 23 hours");
    await pool.query("SELECT graphile_worker.add_job('prune', '{}'::json)");
    await work();
    for (const table of ["receipt", "mail", "notice"]) await pool.query(`DELETE FROM ${table}`);
    expect((await inside.query("SELECT request_key FROM receipt")).rows).toEqual([{ request_key: "young-young" }]);
    expect((await inside.query("SELECT text FROM notice WHERE text LIKE 'read%'")).rows).toEqual([{ text: "read later" }]);
    expect((await inside.query("SELECT 1 FROM mail WHERE sent_at IS NOT NULL")).rows).toHaveLength(1);
  } finally {
    await inside.end();
  }
});
