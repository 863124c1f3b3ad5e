import path from "node:path";
import { accounts } from "@/lib/server/db";
import { mailFile } from "@/lib/server/mail/folder";
import { query } from "@/lib/server/query";
import { withLinkToken } from "@/lib/server/tokens";

export type WrittenMail = {
  readonly mailId: string;
  readonly address: string;
  readonly subject: string;
  /** As it is read by whoever gets it. */
  readonly text: string;
  /** Epoch milliseconds. */
  readonly atMs: number;
  /** The file it was written to; null while it waits. */
  readonly file: string | null;
  readonly failure: string | null;
};

const AT_MOST = 100;

/**
 * What this workshop mailed, newest first: to a manager everything, to others what went to themselves, and to each
 * what is about their own account. Only for where mail is written to a folder, because links in it open accounts.
 */
export const writtenMails = query<undefined, readonly WrittenMail[]>({
  name: "mails",
  needs: "see-workshop",
  run: async ({ who, tx }) => {
    const newest = { orderBy: { createdAt: "desc" }, take: AT_MOST } as const;
    const ofWorkshop = await tx.mail.findMany({ where: who.roles.includes("manager") ? {} : { memberId: who.memberId }, ...newest });
    const ofAccount = await accounts().accountMail.findMany({ where: { personId: who.personId }, ...newest });
    return [...ofWorkshop, ...ofAccount]
      .sort((a, b) => b.createdAt.getTime() - a.createdAt.getTime())
      .slice(0, AT_MOST)
      .map(({ mailId, kind, address, subject, body, createdAt, sentAt, failure }) => ({
        mailId, address, subject, failure,
        text: withLinkToken({ kind, body, mailId }),
        atMs: createdAt.getTime(),
        file: sentAt === null ? null : path.basename(mailFile(mailId, createdAt)),
      }));
  },
});
