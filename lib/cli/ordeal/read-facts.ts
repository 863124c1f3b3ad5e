import pg from "pg";
import type { Facts } from "./history";

/** Everything the checks ask for, as the owner of the tables sees it. */
export async function readFacts(ownerUrl: string, workshopId: string): Promise<Facts> {
  const owner = new pg.Client({ connectionString: ownerUrl });
  await owner.connect();
  const of = async <R extends pg.QueryResultRow>(text: string) => (await owner.query<R>(text, [workshopId])).rows;
  try {
    return {
      firings: await of(`SELECT firing_id AS "firingId", member_id AS "memberId", status, purposes FROM firing WHERE workshop_id = $1`),
      bookings: await of(
        `SELECT firing_id AS "firingId", equipment_id AS "equipmentId", purpose, standing, (extract(epoch FROM starts_at) * 1000)::float8 AS start, (extract(epoch FROM ends_at) * 1000)::float8 AS "end" FROM booking WHERE workshop_id = $1`,
      ),
      audits: await of(`SELECT action, subject_id AS "subjectId", member_id AS "memberId", coalesce(after, '{}') AS after FROM audit WHERE workshop_id = $1 AND subject = 'firing' ORDER BY audit_id`),
      receipts: await of(`SELECT member_id AS "memberId", request_key AS key, answer->'value' AS answer FROM receipt WHERE workshop_id = $1`),
      notices: await of(`SELECT member_id AS "memberId", href, text FROM notice WHERE workshop_id = $1`),
      mails: await of(`SELECT mail_id AS "mailId", member_id AS "memberId", kind, (sent_at IS NOT NULL OR failed_at IS NOT NULL) AS done FROM mail WHERE workshop_id = $1`),
      jobs: (await owner.query<{ id: string }>(`SELECT payload->>'mailId' AS id FROM graphile_worker._private_jobs`)).rows.map(({ id }) => id),
      asks: (await of<{ ask_id: string }>(`SELECT ask_id FROM ask WHERE workshop_id = $1`)).map((row) => row.ask_id),
    };
  } finally {
    await owner.end();
  }
}
