import { isId } from "@/lib/contracts/is-id";
import type { Tx } from "@/lib/server/db";
import { Prisma } from "@/lib/server/prisma-client/client";

/** Names for the ids that stand in the record, so that people can read it. */
export type RecordNames = ReadonlyMap<string, string>;

type Entry = { readonly subjectId: string; readonly before: unknown; readonly after: unknown };

/** Names for what these entries speak of, and for nothing else: equipment, people and tokens by name, castings by title, firings and asks by their castings'. */
export async function loadRecordNames(tx: Tx, entries: readonly Entry[]): Promise<RecordNames> {
  const ids = [...new Set(entries.flatMap(({ subjectId, before, after }) => idsIn([subjectId.split("/")[0], before, after])))];
  if (ids.length === 0) return new Map();
  const are = (id: string) => Prisma.sql`${Prisma.raw(id)} = ANY (${ids}::uuid[])`;
  const rows = await tx.$queryRaw<readonly { readonly id: string; readonly name: string }[]>(named(are));
  return new Map(rows.map(({ id, name }) => [id, name]));
}

/** The ids, as text, of all whose name holds this text, in any case. */
export function idsCalled(text: string): Prisma.Sql {
  const like = `%${text.replaceAll(/[\\%_]/g, "\\$&")}%`;
  return Prisma.sql`SELECT id::text FROM (${named(() => Prisma.sql`true`)}) AS called WHERE name ILIKE ${like}`;
}

/** Everything that has a name, with the condition that each table's id must meet. */
function named(meets: (id: string) => Prisma.Sql): Prisma.Sql {
  return Prisma.sql`
    SELECT equipment_id AS id, name FROM equipment WHERE ${meets("equipment_id")}
    UNION ALL SELECT member_id, name FROM member WHERE ${meets("member_id")}
    UNION ALL SELECT token_id, name FROM access_token WHERE ${meets("token_id")}
    UNION ALL SELECT casting_id, title FROM casting WHERE ${meets("casting_id")}
    UNION ALL SELECT ask_id, title FROM ask JOIN casting USING (workshop_id, casting_id) WHERE ${meets("ask_id")}
    UNION ALL SELECT firing_id, string_agg(title, ', ' ORDER BY joined_at, title) FROM firing_casting JOIN casting USING (workshop_id, casting_id)
      WHERE ${meets("firing_id")} GROUP BY firing_id`;
}

function idsIn(value: unknown): readonly string[] {
  if (typeof value === "string") return isId(value) ? [value] : [];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(idsIn) : [];
}
