import pg from "pg";

export type AuditRow = {
  readonly action: string;
  readonly subject: string;
  readonly subject_id: string;
  readonly member_id: string | null;
  readonly before: unknown;
  readonly after: unknown;
  readonly reason: string | null;
};

/** The record of one workshop, oldest first, as the owner of the tables sees it. */
export async function auditRows(ownerUrl: string, workshopId: string): Promise<readonly AuditRow[]> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const { rows } = await client.query<AuditRow>(
      "SELECT action, subject, subject_id, member_id, before, after, reason FROM audit WHERE workshop_id = $1 ORDER BY audit_id",
      [workshopId],
    );
    return rows;
  } finally {
    await client.end();
  }
}
