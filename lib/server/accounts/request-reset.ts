import { randomUUID } from "node:crypto";
import { paths } from "@/lib/contracts/paths";
import { emailSchema } from "@/lib/contracts/email";
import { now, toDate } from "@/lib/server/clock";
import { accounts, asPerson } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { LINK_TOKEN, linkToken } from "@/lib/server/tokens";

export const RESET_VALID_MINUTES = 60;
/** Further wishes within the hour send nothing: the earlier links still work, and nobody's mailbox is flooded. */
export const MAX_LIVE_RESETS = 3;

/**
 * Mails a link that sets a new password, if somebody has this address. Returns nothing in any case, and is meant to
 * run after the answer has been sent: whether an address is known must not be told, not even by the time it takes.
 */
export async function requestReset(typed: unknown): Promise<void> {
  const email = emailSchema.safeParse(typed);
  if (!email.success) return;
  const person = await accounts().person.findUnique({ where: { email: email.data } });
  if (person === null) return;
  const { personId } = person;
  const at = now();
  const live = await accounts().passwordReset.count({ where: { personId, expiresAt: { gt: toDate(at) } } });
  if (live >= MAX_LIVE_RESETS) return;
  const mailId = randomUUID();
  const { tokenHash } = linkToken(mailId);
  const expiresAt = toDate(at.add({ minutes: RESET_VALID_MINUTES }));
  const body = mailText(`${env().publicUrl}${paths.reset(LINK_TOKEN)}`);
  await asPerson(personId, async (tx) => {
    await tx.passwordReset.create({ data: { tokenHash, personId, expiresAt } });
    const mail = { mailId, personId, address: person.email, kind: "password-reset", subject: "Set a new password", body };
    await tx.accountMail.create({ data: { ...mail, createdAt: toDate(at), uselessAt: expiresAt } });
  });
}

function mailText(link: string): string {
  return [
    "Somebody, probably you, asked for a new password for Lehrbook.",
    `This link sets one. It works once, for ${RESET_VALID_MINUTES} minutes:`,
    link,
    "If it was not you, do nothing: your password stays as it is.",
  ].join("\n\n");
}
