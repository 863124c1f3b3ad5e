import { query } from "@/lib/server/query";
import { onlyChanges } from "@/lib/server/rows/record-changes";
import { loadRecordNames, recordWords, subjectWords, type RecordNames } from "@/lib/server/rows/record-words";

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
    const names = await loadRecordNames(tx);
    const where = text.trim() === "" ? {} : { OR: speaksOf(text.trim(), names) };
    const total = await tx.audit.count({ where });
    const pages = Math.max(1, Math.ceil(total / PER_PAGE));
    const shown = Math.min(Math.max(1, page), pages);
    const rows = await tx.audit.findMany({ where, orderBy: { auditId: "desc" }, skip: (shown - 1) * PER_PAGE, take: PER_PAGE, include: { member: { select: { name: true } }, token: { select: { name: true } } } });
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
function speaksOf(text: string, names: RecordNames) {
  const like = (contains: string) => ({ contains: contains.replaceAll(/[\\%_]/g, "\\$&"), mode: "insensitive" }) as const;
  const called = [...names].filter(([, name]) => name.toLowerCase().includes(text.toLowerCase())).map(([id]) => id);
  return [
    { action: like(text.replaceAll(/\s+/g, "-")) },
    { subject: like(text) },
    { subjectId: { in: called } },
    { reason: like(text) },
    { member: { name: like(text) } },
    { token: { name: like(text) } },
  ];
}
