import { Prisma } from "@/lib/server/prisma-client/client";
import { query } from "@/lib/server/query";
import { onlyChanges } from "@/lib/server/rows/record-changes";
import { idsCalled, loadRecordNames } from "@/lib/server/rows/record-names";
import { recordWords, subjectWords } from "@/lib/server/rows/record-words";

const PER_PAGE = 50;

export type RecordLine = {
  readonly auditId: string;
  readonly atMs: number;
  readonly who: string;
  readonly action: string;
  readonly subject: string;
  /** What the subject is called. */
  readonly called: string;
  readonly before: string;
  readonly after: string;
  readonly reason: string | null;
};
export type RecordScreen = { readonly lines: readonly RecordLine[]; readonly page: number; readonly pages: number; readonly total: number };

type Input = { readonly page: number; readonly text: string };

/** Who changed what, when and why; newest first. `text` is looked for in action, subject and its name, reason and person. */
export const workshopRecord = query({
  name: "workshop-record",
  needs: "read-record",
  run: async ({ tx, who }, { page, text }: Input): Promise<RecordScreen> => {
    const speaks = text.trim() === "" ? Prisma.sql`true` : speaksOf(text.trim());
    const [{ total } = { total: 0 }] = await tx.$queryRaw<readonly { readonly total: number }[]>`SELECT count(*)::int AS total FROM audit a WHERE ${speaks}`;
    const pages = Math.max(1, Math.ceil(total / PER_PAGE));
    const shown = Math.min(Math.max(1, page), pages);
    const onPage = await tx.$queryRaw<readonly { readonly audit_id: bigint }[]>`
      SELECT audit_id FROM audit a WHERE ${speaks} ORDER BY audit_id DESC LIMIT ${PER_PAGE} OFFSET ${(shown - 1) * PER_PAGE}`;
    const auditId = { in: onPage.map((row) => row.audit_id) };
    const rows = await tx.audit.findMany({ where: { auditId }, orderBy: { auditId: "desc" }, include: { member: { select: { name: true } }, token: { select: { name: true } } } });
    const names = await loadRecordNames(tx, rows);
    return {
      page: shown,
      pages,
      total,
      lines: rows.map((row) => {
        const [before, after] = onlyChanges(row.before, row.after);
        return {
          auditId: String(row.auditId),
          atMs: row.at.getTime(),
          who: `${row.member?.name ?? "the system"}${row.token === null ? "" : `, by the script ${row.token.name}`}`,
          action: row.action,
          subject: row.subject,
          called: subjectWords(row.subjectId, names),
          before: recordWords(before, names, who.timeZone),
          after: recordWords(after, names, who.timeZone),
          reason: row.reason,
        };
      }),
    };
  },
});

/** An entry speaks of a text when any of its words hold it, as the screen shows them: actions without their hyphens, ids by name. */
function speaksOf(text: string): Prisma.Sql {
  const like = (words: string) => `%${words.replaceAll(/[\\%_]/g, "\\$&")}%`;
  const said = like(text);
  return Prisma.sql`(
    a.action ILIKE ${like(text.replaceAll(/\s+/g, "-"))} OR a.subject ILIKE ${said} OR a.reason ILIKE ${said}
    OR split_part(a.subject_id, '/', 1) IN (${idsCalled(text)})
    OR a.member_id IN (SELECT member_id FROM member WHERE name ILIKE ${said})
    OR a.token_id IN (SELECT token_id FROM access_token WHERE name ILIKE ${said}))`;
}
