import { accounts, inWorkshop } from "@/lib/server/db";

/** Which mail: one of a workshop, or one about an account. */
export type MailRef = { readonly mailId: string; readonly workshopId: string | null };

export type StoredMail = {
  readonly mailId: string;
  readonly address: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: string;
  readonly createdAt: Date;
  readonly uselessAt: Date | null;
  readonly handedOver: number;
  readonly sentAt: Date | null;
  readonly failedAt: Date | null;
  /** Null: not a member yet, or mail about an account. */
  readonly memberId?: string | null;
  readonly personId?: string;
};

export async function findMail({ workshopId, mailId }: MailRef): Promise<StoredMail | null> {
  if (workshopId === null) return accounts().accountMail.findUnique({ where: { mailId } });
  return inWorkshop(workshopId, (tx) => tx.mail.findFirst({ where: { mailId } }));
}

type Change = {
  readonly handedOver?: { readonly increment: 1 } | { readonly decrement: 1 };
  readonly handedOverAt?: Date;
  readonly sentAt?: Date;
  readonly failedAt?: Date;
  readonly failure?: string;
};

/** Changes a mail that is neither sent nor given up; with `handedOver`, only if it was handed over so often. */
export async function changeMail({ workshopId, mailId }: MailRef, data: Change, handedOver?: number): Promise<boolean> {
  const where = { mailId, sentAt: null, failedAt: null, ...(handedOver === undefined ? {} : { handedOver }) };
  const { count } =
    workshopId === null
      ? await accounts().accountMail.updateMany({ where, data })
      : await inWorkshop(workshopId, (tx) => tx.mail.updateMany({ where, data }));
  return count === 1;
}
