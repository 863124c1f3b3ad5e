import { randomBytes } from "node:crypto";
import { cp, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { migrate } from "@/lib/server/migrate";
import { writeRunRows } from "@/tests/helpers/run-rows";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const MIGRATIONS = path.join(process.cwd(), "prisma", "migrations");
const name = `lehrbook_before_feeds_${randomBytes(4).toString("hex")}`;
const { adminUrl } = inject("postgres");

let folder = "";
let admin: pg.Client;
let all: pg.Client;
let shed: MadeWorkshop;
let firingId = "";

/** The owner of the database is neither superuser nor above row-level security, as with most who rent a database. */
function urlOf(user?: string): string {
  const url = new URL(adminUrl);
  url.pathname = `/${name}`;
  if (user !== undefined) [url.username, url.password] = [user, user];
  return url.toString();
}

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "before-feeds-"));
  admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  await admin.query(`CREATE ROLE ${name} LOGIN NOSUPERUSER NOBYPASSRLS PASSWORD '${name}'`);
  await admin.query(`CREATE DATABASE ${name} OWNER ${name}`);
  for (const one of await readdir(MIGRATIONS)) if (one < "0005" || one.endsWith(".toml")) await cp(path.join(MIGRATIONS, one), path.join(folder, one), { recursive: true });
  all = new pg.Client({ connectionString: urlOf() });
  await all.connect();
  await migrate(urlOf(), { migrationsFolder: folder });
  shed = await makeWorkshop(urlOf());
  firingId = await writeRunRows(all, shed, { from: "2027-03-01T08:00:00Z", to: "2027-03-08T08:00:00Z" });
  // Moved once: what stood first is the older row.
  await all.query(
    `INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at, standing, created_at)
     SELECT workshop_id, firing_id, equipment_id, purpose, starts_at - interval '1 day', ends_at, false, created_at - interval '1 hour' FROM booking WHERE firing_id = $1`,
    [firingId],
  );
  await writeRunRows(all, shed, { from: "2027-04-01T08:00:00Z", to: "2027-04-08T08:00:00Z", status: "cancelled" });
  const tables = await all.query("SELECT tablename FROM pg_tables WHERE schemaname = 'public'");
  // A database of that time had no jobs yet.
  await all.query("DROP SCHEMA graphile_worker CASCADE");
  await all.query(`ALTER SCHEMA public OWNER TO ${name}`);
  for (const { tablename } of tables.rows) await all.query(`ALTER TABLE ${tablename} OWNER TO ${name}`);
  await cp(path.join(MIGRATIONS, "0005_feed"), path.join(folder, "0005_feed"), { recursive: true });
  await migrate(urlOf(name), { migrationsFolder: folder });
});
afterAll(async () => {
  await all.end();
  await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await admin.query(`DROP ROLE ${name}`);
  await admin.end();
  await rm(folder, { recursive: true, force: true });
});

describe("what was booked before there were feeds", () => {
  it("counts its moves, and is called by the id of its first row", async () => {
    const { rows } = await all.query("SELECT booking_id, entry_id, sequence, standing FROM booking WHERE firing_id = $1 ORDER BY created_at", [firingId]);
    expect(rows.map(({ sequence, standing }) => ({ sequence, standing }))).toEqual([{ sequence: 1, standing: false }, { sequence: 1, standing: true }]);
    expect(rows.map(({ entry_id }) => entry_id)).toEqual([rows[0].booking_id, rows[0].booking_id]);
  });

  it("counts its end when it was cancelled", async () => {
    const { rows } = await all.query("SELECT sequence, entry_id = booking_id AS own FROM booking WHERE firing_id <> $1", [firingId]);
    expect(rows).toEqual([{ sequence: 1, own: true }]);
  });

  it("is guarded as before: rows of one workshop only, and runs that are whole", async () => {
    const { rows } = await all.query("SELECT relforcerowsecurity AS forced FROM pg_class WHERE relname IN ('booking', 'lift', 'feed')");
    expect(rows).toEqual([{ forced: true }, { forced: true }, { forced: true }]);
    await expect(all.query("UPDATE booking SET standing = false WHERE firing_id = $1 AND standing", [firingId])).rejects.toMatchObject({ code: "LB002" });
  });
});
