import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { askAnew, sendLater, sql } from "@/lib/server/statements";
import { tellAll, type News, type Telling } from "@/lib/server/tell";

type Lapsed = { readonly firing_id: string; readonly member_id: string; readonly held_until: Date; readonly casting_id: string; readonly title: string; readonly kiln: string | null; readonly starts_at: Date | null };

/**
 * Frees all that is still held although its time is over, and tells whose it was. Called behind `lockCalendar` alone.
 * A hold that is confirmed at the same instant is decided by its row: whoever locks it first is right.
 */
export async function lapseHolds(telling: Telling): Promise<void> {
  const { tx, who, now } = telling;
  const at = toDate(now);
  const lapsed = await tx.$queryRaw<readonly Lapsed[]>`
    WITH over AS (
      UPDATE firing SET status = 'lapsed', version = version + 1 WHERE workshop_id = current_workshop() AND status = 'held' AND held_until <= ${at}
      RETURNING workshop_id, firing_id, plan_id, member_id, held_until
    ), bookings AS (
      UPDATE booking b SET standing = false FROM over WHERE b.workshop_id = over.workshop_id AND b.firing_id = over.firing_id AND b.standing
    ), lifts AS (
      UPDATE lift l SET standing = false FROM over WHERE l.workshop_id = over.workshop_id AND l.firing_id = over.firing_id AND l.standing
    ), castings AS (
      UPDATE firing_casting s SET standing = false FROM over WHERE s.workshop_id = over.workshop_id AND s.firing_id = over.firing_id AND s.standing
    )
    SELECT over.firing_id, over.member_id, over.held_until, c.casting_id, c.title, e.name AS kiln, k.starts_at
      FROM over JOIN plan p USING (workshop_id, plan_id) JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
      LEFT JOIN booking k ON k.workshop_id = over.workshop_id AND k.firing_id = over.firing_id AND k.purpose = 'kiln' AND k.standing
      LEFT JOIN equipment e ON e.workshop_id = k.workshop_id AND e.equipment_id = k.equipment_id
     ORDER BY over.held_until, over.firing_id`;
  if (lapsed.length === 0) return;
  const record = lapsed.map(({ firing_id: firingId, held_until: until }) => ({ firingId, before: { status: "held", heldUntil: toInstant(until).toString() } }));
  await sendLater(tx, sql`
    INSERT INTO audit (workshop_id, at, action, subject, subject_id, before, after)
    SELECT ${who.workshopId}::uuid, ${at}::timestamptz, 'lapse-hold', 'firing', r."firingId", r.before, '{"status":"lapsed"}' FROM jsonb_to_recordset(${JSON.stringify(record)}::jsonb) AS r ("firingId" text, before jsonb)`);
  await tellAll(telling, lapsed.map((one) => newsOf(one, who.timeZone)));
  // What was asked ahead still stood then.
  askAnew(tx);
}

function newsOf({ member_id: memberId, held_until: until, casting_id: castingId, title, kiln, starts_at: startsAt }: Lapsed, timeZone: string): News {
  const when = kiln === null || startsAt === null ? "" : ` in ${kiln}, ${showTime(toInstant(startsAt), timeZone)},`;
  return { to: [memberId], kind: "hold-lapsed", text: `The run held for ${title}${when} lapsed ${showTime(toInstant(until), timeZone)}.`, href: paths.findTime(castingId) };
}
