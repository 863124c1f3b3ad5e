import type { NotShown } from "@/lib/domain/booking/run-question";
import type { Tx } from "@/lib/server/db";

/** The kilns for which a member still needs an induction. */
export async function loadNotShown(tx: Tx, memberId: string): Promise<NotShown | undefined> {
  const rows = await tx.$queryRaw<{ readonly name: string; readonly equipment_id: string }[]>`
    SELECT m.name, e.equipment_id FROM equipment e JOIN member m ON m.workshop_id = e.workshop_id AND m.member_id = ${memberId}::uuid
     WHERE e.needs_induction AND e.retired_at IS NULL
       AND NOT EXISTS (SELECT FROM induction i WHERE i.workshop_id = e.workshop_id AND i.member_id = m.member_id AND i.equipment_id = e.equipment_id)`;
  const [first] = rows;
  return first === undefined ? undefined : { person: first.name, kilnIds: new Set(rows.map((row) => row.equipment_id)) };
}
