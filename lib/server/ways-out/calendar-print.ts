import { sql, type Statements } from "@/lib/server/statements";

/** Names the state that a settlement is placed on, and the oldest transaction that had not ended when it was read. */
export type CalendarPrint = { readonly since: string; readonly print: string };

/**
 * Reads what changes with anything that placing reads: what runs stand on (0015_ground), bookings, lifts and firings by
 * the transaction that wrote them last (0016_changed_in), kilns' records, open asks and their castings, plans of
 * seasons that wait. Read it before all else, and again, with the first one, behind the calendar's lock: equal prints
 * mean that nothing was written in between, whatever the statements between them saw.
 */
export async function calendarPrint(tx: Statements, before?: CalendarPrint): Promise<CalendarPrint> {
  const since = before === undefined ? sql`pg_snapshot_xmin(pg_current_snapshot())` : sql`${before.since}::xid8`;
  const [row] = await tx.$queryRaw<readonly CalendarPrint[]>`
    WITH start AS MATERIALIZED (SELECT ${since} AS since)
    SELECT since::text, md5(concat_ws(' ', (SELECT ground_id FROM workshop WHERE workshop_id = current_workshop()),
             (SELECT string_agg(booking_id::text || changed_in, ' ' ORDER BY booking_id) FROM booking WHERE workshop_id = current_workshop() AND changed_in >= since), (SELECT string_agg(lift_id::text || changed_in, ' ' ORDER BY lift_id) FROM lift WHERE workshop_id = current_workshop() AND changed_in >= since), (SELECT string_agg(firing_id::text || changed_in, ' ' ORDER BY firing_id) FROM firing WHERE workshop_id = current_workshop() AND changed_in >= since),
             (SELECT string_agg(equipment_id::text || record_version, ' ' ORDER BY equipment_id) FROM equipment),
             (SELECT string_agg(concat_ws(' ', a.ask_id, a.xmin, c.xmin), ' ' ORDER BY a.ask_id) FROM ask a JOIN casting c USING (workshop_id, casting_id) WHERE a.status = 'open'),
             (SELECT string_agg(concat_ws(' ', c.casting_id, c.xmin), ' ' ORDER BY c.casting_id) FROM firing f JOIN firing_casting s USING (workshop_id, firing_id) JOIN casting c USING (workshop_id, casting_id) WHERE f.status IN ('held','planned','started') AND s.standing),
             (SELECT string_agg(concat_ws(' ', replan_id, xmin), ' ' ORDER BY replan_id) FROM replan WHERE state = 'ready' AND settlement_id IS NULL))) AS print
      FROM start`;
  if (row === undefined) throw new Error("no calendar");
  return row;
}
