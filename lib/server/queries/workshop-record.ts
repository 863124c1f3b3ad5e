import { query } from "@/lib/server/query";
import { loadRecordNames, recordWords, subjectWords } from "@/lib/server/rows/record-words";

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

/** Who changed what, when and why; newest first. `text` is looked for in action, subject, reason and name. */
export const workshopRecord = query({
  name: "workshop-record",
  needs: "read-record",
  run: async ({ tx, who }, { page, text }: Input): Promise<RecordScreen> => {
    const like = { contains: text, mode: "insensitive" } as const;
    const where = text === "" ? {} : { OR: [{ action: like }, { subject: like }, { subjectId: like }, { reason: like }, { member: { name: like } }] };
    const total = await tx.audit.count({ where });
    const pages = Math.max(1, Math.ceil(total / PER_PAGE));
    const shown = Math.min(Math.max(1, page), pages);
    const rows = await tx.audit.findMany({ where, orderBy: { auditId: "desc" }, skip: (shown - 1) * PER_PAGE, take: PER_PAGE, include: { member: { select: { name: true } } } });
    const names = await loadRecordNames(tx);
    return {
      page: shown,
      pages,
      total,
      lines: rows.map((row) => ({
        auditId: String(row.auditId),
        atMs: row.at.getTime(),
        who: row.member?.name ?? "the system",
        action: row.action,
        subject: row.subject,
        called: subjectWords(row.subjectId, names),
        before: recordWords(row.before, names, who.timeZone),
        after: recordWords(row.after, names, who.timeZone),
        reason: row.reason,
      })),
    };
  },
});
