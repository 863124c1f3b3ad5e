import { stateOf } from "@/lib/server/accounts/read-invitation";
import { now, toDate } from "@/lib/server/clock";
import { accounts, inWorkshop } from "@/lib/server/db";
import type { MailRef, StoredMail } from "@/lib/server/mail/mailbox";
import { linkToken } from "@/lib/server/tokens";

/** Why a mail's link is not wanted any more, and whether somebody saw to that: then nobody needs to be told. */
export type SpentLink = { readonly why: string; readonly known: boolean };

/** Undefined for a mail whose link still opens what it says, or is only too late, and for mail without such a link. */
export async function spentLink(ref: MailRef, mail: StoredMail): Promise<SpentLink | undefined> {
  const { tokenHash } = linkToken(mail.mailId);
  if (mail.kind === "invitation" && ref.workshopId !== null) {
    const row = await inWorkshop(ref.workshopId, (tx) => tx.invitation.findFirst({ where: { tokenHash } }));
    return row === null ? LOST : INVITATION[stateOf(row, toDate(now()))];
  }
  if (mail.kind !== "password-reset") return undefined;
  const reset = await accounts().passwordReset.findUnique({ where: { tokenHash } });
  if (reset === null) return LOST;
  return reset.usedAt === null ? undefined : { why: "A new password was set before it was sent.", known: true };
}

const INVITATION: Readonly<Record<ReturnType<typeof stateOf>, SpentLink | undefined>> = {
  withdrawn: { why: "The invitation was withdrawn before it was sent.", known: true },
  used: { why: "The invitation was accepted before it was sent.", known: true },
  open: undefined,
  expired: undefined,
};

/** Links are worked out with AUTH_SECRET; one that was promised under another opens nothing. */
const LOST: SpentLink = { why: "Its link opens nothing, because AUTH_SECRET was changed before it was sent.", known: false };
