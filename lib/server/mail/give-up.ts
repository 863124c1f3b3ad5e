import { paths } from "@/lib/contracts/paths";
import { now, toDate } from "@/lib/server/clock";
import { asPerson, inWorkshop, type Tx } from "@/lib/server/db";
import { log } from "@/lib/server/log";
import type { MailRef, StoredMail } from "@/lib/server/mail/mailbox";
import { tell } from "@/lib/server/tell";

/** Ends the attempts to send a mail, and tells the managers in the same transaction: nothing is lost unseen. */
export async function giveUp({ workshopId, mailId }: MailRef, mail: StoredMail, failure: string): Promise<void> {
  const data = { failedAt: toDate(now()), failure };
  const where = { mailId, sentAt: null, failedAt: null };
  log.warn({ mailId, to: mail.address, failure }, "mail given up");
  const text = `A mail to ${mail.address} (${mail.subject}) could not be delivered.`;
  if (workshopId !== null) {
    await inWorkshop(workshopId, async (tx) => {
      const { count } = await tx.mail.updateMany({ where, data });
      if (count === 1) await tellManagers(tx, workshopId, text, failure);
    });
    return;
  }
  // About an account: the managers of every workshop that the person belongs to can help.
  await asPerson(mail.personId ?? "", async (tx) => {
    const members = await tx.member.findMany({ where: { personId: mail.personId ?? "", active: true }, select: { workshopId: true } });
    const { count } = await tx.accountMail.updateMany({ where, data });
    if (count === 0) return;
    for (const one of members) {
      await tx.$executeRaw`SELECT set_config('lehrbook.workshop', ${one.workshopId}, true)`;
      await tellManagers(tx, one.workshopId, text, failure);
    }
  });
}

async function tellManagers(tx: Tx, workshopId: string, text: string, reason: string): Promise<void> {
  const { name, timeZone } = await tx.workshop.findFirstOrThrow({ where: { workshopId } });
  const managers = await tx.member.findMany({ where: { workshopId, active: true, roles: { has: "manager" } }, select: { memberId: true } });
  const who = { workshopId, workshopName: name, timeZone };
  await tell({ tx, now: now(), who }, { to: managers.map((one) => one.memberId), kind: "undelivered", text, reason, href: paths.people });
}
