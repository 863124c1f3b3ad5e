import { now, toDate } from "@/lib/server/clock";
import { env } from "@/lib/server/env";
import { log } from "@/lib/server/log";
import { compose } from "@/lib/server/mail/compose";
import { mailFile, putIntoFolder } from "@/lib/server/mail/folder";
import { giveUp } from "@/lib/server/mail/give-up";
import { handOver, NotTaken } from "@/lib/server/mail/hand-over";
import { changeMail, findMail, type MailRef, type StoredMail } from "@/lib/server/mail/mailbox";
import { spentLink } from "@/lib/server/mail/spent-link";
import { withLinkToken } from "@/lib/server/tokens";

/** How often a mail's content may go out without a refusal: a second time when nobody knows what became of the first. */
export const MAX_HANDED_OVER = 2;
/** How long a server may be away before a mail is given up. */
export const GIVE_UP_HOURS = 48;

/**
 * Sends one mail, once. That its content goes out is written down before it does, and that it was taken after. A worker
 * killed in between leaves it open which, and the mail goes out once more; after a second such time nobody tries a
 * third: the manager is told that it may have arrived. A link that was spent meanwhile is not sent.
 * @throws when it is worth trying later
 */
export async function deliver(ref: MailRef): Promise<void> {
  const mail = await findMail(ref);
  if (mail === null || mail.sentAt !== null || mail.failedAt !== null) return;
  const at = now();
  if (mail.uselessAt !== null && mail.uselessAt <= toDate(at)) return giveUp(ref, mail, "It would have come too late.");
  const spent = await spentLink(ref, mail);
  if (spent?.known === true) return void (await changeMail(ref, { failedAt: toDate(at), failure: spent.why }));
  if (spent !== undefined) return giveUp(ref, mail, spent.why);
  if (mail.handedOver >= MAX_HANDED_OVER) return giveUp(ref, mail, `Twice the connection broke while it was handed over. ${MAY_HAVE_ARRIVED}`);
  try {
    await put(ref, mail);
  } catch (error) {
    const tooOld = toDate(at.subtract({ hours: GIVE_UP_HOURS })) >= mail.createdAt;
    if (!tooOld && !(error instanceof NotTaken && error.forGood)) throw error;
    const said = error instanceof Error ? error.message : String(error);
    const unknown = ((await findMail(ref))?.handedOver ?? 0) > 0;
    return giveUp(ref, mail, unknown ? `${said.replace(/\.$/, "")}. ${MAY_HAVE_ARRIVED}` : said);
  }
}

const MAY_HAVE_ARRIVED = "It may have arrived, and is not sent again.";

async function put(ref: MailRef, mail: StoredMail): Promise<void> {
  const { smtpUrl, mailFrom, publicUrl } = env();
  const text = withLinkToken(mail);
  const { mailId, address: to, subject, createdAt: writtenAt } = mail;
  const composed = await compose({ mailId, from: mailFrom, to, subject, text, writtenAt, publicUrl });
  if (smtpUrl === undefined) {
    const file = mailFile(mailId, writtenAt);
    await putIntoFolder(file, composed.raw);
    // A link that opens an account is what somebody without a mail server looks for in the terminal.
    if (text !== mail.body) log.info({ to, subject, file, text }, "mail (no SMTP server is set)");
    await changeMail(ref, { sentAt: toDate(now()) });
    return;
  }
  let gone = false;
  try {
    await handOver(smtpUrl, composed, async () => {
      // Failing, and not ending well: the queue drops a job that ends well, even from a worker that it has taken it from.
      if (!(await changeMail(ref, { handedOver: { increment: 1 }, handedOverAt: toDate(now()) }, mail.handedOver))) throw new Error("another worker has this mail in hand");
      gone = true;
    });
  } catch (error) {
    if (gone && error instanceof NotTaken && error.answered) await changeMail(ref, { handedOver: { decrement: 1 } });
    throw error;
  }
  await changeMail(ref, { sentAt: toDate(now()) });
}
