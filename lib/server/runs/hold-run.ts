import { localDay } from "@/lib/domain/time/zone-days";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import type { Placed } from "@/lib/server/runs/place-run";
import { sendLater, sql, type Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

/**
 * Locks what a run shares with others, until this transaction ends: its kiln; the days on which it is steamed, loaded
 * and unloaded, for hands, trolleys and steamers; the days on which it heats, for kilowatts. Two runs that share none
 * of it do not wait for each other. Always in one order, so that no two can wait for each other in a ring.
 */
export async function holdRun(tx: Statements, who: Place, placed: Placed): Promise<readonly string[]> {
  const parts = partsOf(who, placed);
  const names = parts.map((part) => `${who.workshopId}:${part}`);
  await sendLater(tx, sql`
    /* prepared */ SELECT pg_advisory_xact_lock(key) FROM (SELECT DISTINCT hashtextextended(name, 0) AS key FROM unnest(${names}::text[]) AS name ORDER BY key) AS keys`);
  return parts;
}

/** What a run must hold, each once. */
export function partsOf({ timeZone }: Place, { run, kiln }: Placed): readonly string[] {
  const daysOf = (start: number, end: number) => {
    const first = localDay(start, timeZone);
    return Array.from({ length: localDay(end - 1, timeZone) - first + 1 }, (_, i) => first + i);
  };
  const attended = [...run.bookings.filter(({ purpose }) => purpose !== "kiln"), ...run.lifts];
  const days = attended.flatMap(({ start, end }) => daysOf(start.epochMilliseconds, end.epochMilliseconds));
  const closed = run.kilnFrom.epochMilliseconds;
  const heating = daysOf(closed, closed + Math.max(1, run.heatingHours * MS_PER_HOUR));
  const parts = [`kiln:${kiln.equipmentId}`, ...days.map((day) => `day:${day}`), ...heating.map((day) => `heat:${day}`)];
  return [...new Set(parts)];
}
