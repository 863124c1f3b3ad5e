import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freshDatabase, type TestDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

/** Accounts and sign-in are global: a person may belong to several workshops. Migrations keep their own table. */
const GLOBAL_TABLES = ["person", "password_reset", "sign_in_attempt", "account_mail", "_prisma_migrations"];

let database: TestDatabase;
let owner: pg.Client;
let app: pg.Client;
let ours: MadeWorkshop;
let theirs: MadeWorkshop;
let tables: readonly string[];

beforeAll(async () => {
  database = await freshDatabase();
  ours = await makeWorkshop(database.ownerUrl);
  theirs = await makeWorkshop(database.ownerUrl);
  owner = await connected(database.ownerUrl);
  app = await connected(database.appUrl);
  const rows = await owner.query<{ relname: string }>(
    "SELECT relname FROM pg_class WHERE relkind IN ('r','p') AND relnamespace = 'public'::regnamespace AND relname <> ALL ($1)",
    [GLOBAL_TABLES],
  );
  tables = rows.rows.map((row) => row.relname);
});

afterAll(async () => {
  await app.end();
  await owner.end();
  await database.drop();
});

async function connected(connectionString: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString });
  await client.connect();
  return client;
}

/** Runs one statement as the application, for one workshop (or none), and rolls it back. */
async function asApp(workshopId: string | null, statement: string, values: readonly unknown[] = []) {
  await app.query("BEGIN");
  try {
    if (workshopId !== null) await app.query("SELECT set_config('lehrbook.workshop', $1, true)", [workshopId]);
    return await app.query(statement, [...values]);
  } finally {
    await app.query("ROLLBACK");
  }
}

describe("the application's own database role", () => {
  it("is neither superuser nor above row-level security, and owns no table", async () => {
    const { rows } = await app.query(
      `SELECT current_user AS name, rolsuper, rolbypassrls, rolcreaterole,
              (SELECT count(*)::int FROM pg_class WHERE relowner = pg_roles.oid) AS owned
         FROM pg_roles WHERE rolname = current_user`,
    );
    expect(rows[0]).toEqual({ name: "lehrbook_app", rolsuper: false, rolbypassrls: false, rolcreaterole: false, owned: 0 });
  });

  it("sees nothing at all before a workshop is named", async () => {
    for (const table of tables) {
      const { rows } = await asApp(null, `SELECT count(*)::int AS n FROM ${table}`);
      expect({ table, n: rows[0].n }).toEqual({ table, n: 0 });
    }
  });

  it("sees the named workshop's rows and never another's, in every table", async () => {
    for (const table of tables) {
      const { rows } = await asApp(ours.workshopId, `SELECT count(*)::int AS n FROM ${table} WHERE workshop_id <> $1`, [ours.workshopId]);
      expect({ table, n: rows[0].n }).toEqual({ table, n: 0 });
    }
    const { rows } = await asApp(ours.workshopId, "SELECT count(*)::int AS n FROM equipment");
    expect(rows[0].n).toBe(4);
  });

  it("cannot write into another workshop, nor move a row there", async () => {
    const insert = asApp(ours.workshopId, "INSERT INTO closure (workshop_id, from_date, to_date, reason) VALUES ($1, '2027-01-01', '2027-01-02', 'x')", [theirs.workshopId]);
    await expect(insert).rejects.toMatchObject({ code: "42501" });
    const move = asApp(ours.workshopId, "UPDATE equipment SET workshop_id = $1", [theirs.workshopId]);
    await expect(move).rejects.toMatchObject({ code: "42501" });
    const update = await asApp(ours.workshopId, "UPDATE equipment SET name = 'mine' WHERE workshop_id = $1", [theirs.workshopId]);
    expect(update.rowCount).toBe(0);
  });

  it("cannot point at another workshop's rows: every foreign key carries the workshop", async () => {
    const outage = asApp(
      ours.workshopId,
      "INSERT INTO outage (workshop_id, equipment_id, starts_at, reason) VALUES ($1, $2, now(), 'x')",
      [ours.workshopId, theirs.northKiln.equipmentId],
    );
    await expect(outage).rejects.toMatchObject({ code: "23503" });
  });

  it("cannot switch row-level security off, drop a policy, or become somebody else", async () => {
    for (const statement of [
      "ALTER TABLE booking DISABLE ROW LEVEL SECURITY",
      "DROP POLICY one_workshop ON booking",
      "CREATE POLICY all_of_it ON booking USING (true)",
    ]) {
      await expect(asApp(ours.workshopId, statement), statement).rejects.toMatchObject({ code: "42501" });
    }
    const { rows } = await owner.query<{ owner: string }>("SELECT quote_ident(current_user) AS owner");
    await expect(asApp(ours.workshopId, `SET ROLE ${rows[0]?.owner ?? ""}`)).rejects.toMatchObject({ code: "42501" });
  });

  it("cannot look at the jobs, add, change or remove one", async () => {
    for (const statement of [
      "SELECT * FROM graphile_worker.jobs",
      "SELECT * FROM graphile_worker._private_jobs",
      "SELECT graphile_worker.add_job('send-mail')",
      "DELETE FROM graphile_worker._private_jobs",
      "CREATE TRIGGER mine AFTER INSERT ON notice FOR EACH ROW EXECUTE FUNCTION mail_is_to_be_sent()",
    ]) {
      await expect(asApp(ours.workshopId, statement), statement).rejects.toMatchObject({ code: "42501" });
    }
  });

  it("cannot write mail for another workshop, nor make somebody else's mail its own", async () => {
    const mail = "INSERT INTO mail (workshop_id, address, kind, subject, body, created_at) VALUES ($1, 'a@b.example', 'moved', 'x', 'y', now())";
    await expect(asApp(ours.workshopId, mail, [theirs.workshopId])).rejects.toMatchObject({ code: "42501" });
    await expect(asApp(null, mail, [theirs.workshopId])).rejects.toMatchObject({ code: "42501" });
    await expect(asApp(ours.workshopId, "UPDATE mail SET body = 'other'")).rejects.toMatchObject({ code: "42501" });
    await expect(asApp(ours.workshopId, "DELETE FROM mail")).rejects.toMatchObject({ code: "42501" });
  });

  it("cannot change or remove what is kept for the record", async () => {
    for (const table of ["plan", "audit", "check_item", "check_answer", "receipt"]) {
      await expect(asApp(ours.workshopId, `DELETE FROM ${table}`), table).rejects.toMatchObject({ code: "42501" });
      await expect(asApp(ours.workshopId, `UPDATE ${table} SET workshop_id = workshop_id`), table).rejects.toMatchObject({ code: "42501" });
    }
  });
});

describe("the catalogue", () => {
  it("forces row-level security on every table of a workshop", async () => {
    const { rows } = await owner.query(
      "SELECT relname FROM pg_class WHERE relname = ANY ($1) AND NOT (relrowsecurity AND relforcerowsecurity)",
      [tables],
    );
    expect(rows).toEqual([]);
  });

  it("starts every table of a workshop with workshop_id", async () => {
    const { rows } = await owner.query(
      `SELECT table_name FROM information_schema.columns
        WHERE table_schema = 'public' AND table_name = ANY ($1) AND ordinal_position = 1 AND column_name <> 'workshop_id'`,
      [tables],
    );
    expect(rows).toEqual([]);
  });

  it("has workshop_id in every key, unique, exclusion and foreign key, and in every unique index", async () => {
    const constraints = await owner.query(
      `SELECT c.conrelid::regclass::text AS on_table, c.conname
         FROM pg_constraint c
        WHERE c.conrelid = ANY ($1::regclass[]) AND c.contype IN ('p','u','x','f')
          -- Accounts are global: a member points at the person, and nothing of a workshop is in that row.
          AND NOT (c.contype = 'f' AND c.confrelid = 'person'::regclass)
          AND NOT EXISTS (SELECT FROM pg_attribute a
                           WHERE a.attrelid = c.conrelid AND a.attnum = ANY (c.conkey) AND a.attname = 'workshop_id')`,
      [tables],
    );
    expect(constraints.rows).toEqual([]);
    const indexes = await owner.query(
      `SELECT i.indexrelid::regclass::text AS name FROM pg_index i
        WHERE i.indrelid = ANY ($1::regclass[]) AND i.indisunique
          AND NOT EXISTS (SELECT FROM pg_attribute a
                           WHERE a.attrelid = i.indrelid AND a.attnum = ANY (i.indkey::smallint[]) AND a.attname = 'workshop_id')`,
      [tables],
    );
    expect(indexes.rows).toEqual([]);
  });
});
