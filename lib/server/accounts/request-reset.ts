import { paths } from "@/lib/contracts/paths";
import { emailSchema } from "@/lib/contracts/email";
import { now, toDate } from "@/lib/server/clock";
import { accounts } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { sendMail } from "@/lib/server/mail";
import { newToken } from "@/lib/server/tokens";

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
  const at = now();
  const live = await accounts().passwordReset.count({ where: { personId: person.personId, expiresAt: { gt: toDate(at) } } });
  if (live >= MAX_LIVE_RESETS) return;
  const { token, tokenHash } = newToken();
  const expiresAt = toDate(at.add({ minutes: RESET_VALID_MINUTES }));
  await accounts().passwordReset.create({ data: { tokenHash, personId: person.personId, expiresAt } });
  await sendMail({ to: person.email, subject: "Set a new password", text: mailText(`${env().publicUrl}${paths.reset(token)}`) });
}

function mailText(link: string): string {
  return [
    "Somebody, probably you, asked for a new password for Lehrbook.",
    `This link sets one. It works once, for ${RESET_VALID_MINUTES} minutes:`,
    link,
    "If it was not you, do nothing: your password stays as it is.",
  ].join("\n\n");
}
