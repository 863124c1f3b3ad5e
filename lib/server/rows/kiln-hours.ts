import { USED_DAYS } from "@/lib/domain/asking/order";
import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/** Kiln hours of each member in the last 365 days and booked ahead, by their castings' share of each firing. Holds and offers are none. */
export async function kilnHoursByMember(tx: Tx, now: Temporal.Instant): Promise<ReadonlyMap<string, number>> {
  const since = toDate(now.subtract({ hours: USED_DAYS * 24 }));
  const rows = await tx.$queryRaw<{ member_id: string; hours: number }[]>`
    SELECT c.member_id, sum(extract(epoch FROM b.ends_at - greatest(b.starts_at, ${since}::timestamptz)) / 3600 / f.castings)::float8 AS hours
      FROM (SELECT workshop_id, firing_id, (SELECT count(*) FROM firing_casting s WHERE s.workshop_id = firing.workshop_id AND s.firing_id = firing.firing_id AND s.standing) AS castings
              FROM firing WHERE status IN ('planned','started','opened')) f
      JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing AND b.ends_at > ${since}::timestamptz
      JOIN firing_casting fc ON fc.workshop_id = f.workshop_id AND fc.firing_id = f.firing_id AND fc.standing
      JOIN casting c ON c.workshop_id = fc.workshop_id AND c.casting_id = fc.casting_id
     GROUP BY c.member_id`;
  return new Map(rows.map(({ member_id, hours }) => [member_id, hours]));
}
