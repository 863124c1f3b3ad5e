import type pg from "pg";

/** The tables a booking writes, in an order that foreign keys allow; what the database makes itself is left out. */
const TABLES = ["plan", "firing", "firing_casting", "booking", "lift", "check_sheet", "check_item", "audit", "receipt"] as const;
const MADE = new Set(["during", "mesh_id", "audit_id", "changed_in"]);

type Values = Readonly<Record<string, unknown>>;
export type BookedRows = ReadonlyMap<(typeof TABLES)[number], readonly Values[]>;

/** All rows of some runs as they were booked, run by run. */
export async function readBooked(owner: pg.Client, workshopId: string, firingIds: readonly string[]): Promise<readonly BookedRows[]> {
  const all: BookedRows[] = [];
  for (const firingId of firingIds) {
    const of = async (table: string, where: string) => (await owner.query<Values>(`SELECT * FROM ${table} WHERE workshop_id = $1 AND ${where}`, [workshopId, firingId])).rows;
    const rows = new Map<(typeof TABLES)[number], readonly Values[]>();
    for (const table of ["firing", "firing_casting", "booking", "lift", "check_sheet", "check_item"] as const) rows.set(table, await of(table, "firing_id = $2"));
    rows.set("plan", await of("plan", "plan_id = (SELECT plan_id FROM firing WHERE workshop_id = $1 AND firing_id = $2)"));
    rows.set("audit", await of("audit", "subject = 'firing' AND subject_id = $2::text"));
    rows.set("receipt", await of("receipt", "answer->'value'->>'firingId' = $2::text"));
    all.push(rows);
  }
  return all;
}

/** Takes those rows away again, as nobody but the owner can. */
export async function unbook(owner: pg.Client, workshopId: string, firingIds: readonly string[]): Promise<void> {
  await owner.query("SET session_replication_role = replica");
  await owner.query("DELETE FROM plan WHERE workshop_id = $1 AND plan_id IN (SELECT plan_id FROM firing WHERE workshop_id = $1 AND firing_id = ANY ($2))", [workshopId, firingIds]);
  for (const table of ["check_item", "check_sheet", "lift", "booking", "firing_casting", "firing"]) await owner.query(`DELETE FROM ${table} WHERE workshop_id = $1 AND firing_id = ANY ($2)`, [workshopId, firingIds]);
  await owner.query("DELETE FROM audit WHERE workshop_id = $1 AND subject = 'firing' AND subject_id = ANY ($2)", [workshopId, firingIds]);
  await owner.query("DELETE FROM receipt WHERE workshop_id = $1 AND answer->'value'->>'firingId' = ANY ($2)", [workshopId, firingIds]);
  await owner.query("SET session_replication_role = DEFAULT");
  await owner.query("VACUUM ANALYZE");
}

/** Inserts the same rows under the same constraints as the application's role, in one transaction, a statement for each table. */
export async function insertPlainly(pool: pg.Pool, workshopId: string, rows: BookedRows): Promise<void> {
  const client = await pool.connect();
  try {
    await client.query("BEGIN");
    await client.query("SELECT set_config('lehrbook.workshop', $1, true)", [workshopId]);
    for (const table of TABLES) await client.query(statement(table, rows.get(table) ?? []));
    await client.query("COMMIT");
  } finally {
    client.release();
  }
}

function statement(table: string, rows: readonly Values[]): { name: string; text: string; values: unknown[] } {
  const columns = Object.keys(rows[0] ?? {}).filter((column) => !MADE.has(column));
  const values = rows.flatMap((row) => columns.map((column) => plainValue(row[column])));
  const tuples = rows.map((_, i) => `(${columns.map((__, j) => `$${i * columns.length + j + 1}`).join(",")})`);
  return { name: `${table}-${rows.length}`, text: `INSERT INTO ${table} (${columns.join(",")}) VALUES ${tuples.join(",")}`, values };
}

function plainValue(value: unknown): unknown {
  return typeof value === "object" && value !== null && !(value instanceof Date) && !Array.isArray(value) ? JSON.stringify(value) : value;
}
