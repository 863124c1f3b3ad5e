import pg from "pg";

/** Looks behind the screens, as the database's owner. */
export async function rows<R extends Record<string, unknown>>(sql: string, ...values: unknown[]): Promise<R[]> {
  const client = new pg.Client({ connectionString: process.env["LEHRBOOK_E2E_DATABASE_URL"] });
  await client.connect();
  try {
    return (await client.query<R>(sql, values)).rows;
  } finally {
    await client.end();
  }
}

/** The firing that a casting of this title hangs on. */
export async function firingOf(title: string): Promise<string> {
  const [row] = await rows<{ firing_id: string }>(
    "SELECT fc.firing_id FROM firing_casting fc JOIN casting c USING (workshop_id, casting_id) WHERE c.title = $1 AND fc.standing ORDER BY c.created_at DESC LIMIT 1",
    title,
  );
  if (row === undefined) throw new Error(`no firing of ${title}`);
  return row.firing_id;
}

export async function castingOf(title: string): Promise<string> {
  const [row] = await rows<{ casting_id: string }>("SELECT casting_id FROM casting WHERE title = $1 ORDER BY created_at DESC LIMIT 1", title);
  if (row === undefined) throw new Error(`no casting ${title}`);
  return row.casting_id;
}
