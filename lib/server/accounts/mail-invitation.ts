import { logFault } from "@/lib/server/log";
import { sendMail } from "@/lib/server/mail";

type Invitation = { readonly name: string; readonly email: string; readonly link: string };

/** Mails an invitation's link. A mail that fails is told in the log; the link also stands on the manager's screen. */
export async function mailInvitation({ name, email, link }: Invitation): Promise<void> {
  const text = `${name},\n\nyou are invited to a glass workshop on Lehrbook. This link works once, for seven days:\n\n${link}\n`;
  await sendMail({ to: email, subject: "You are invited", text }).catch((error: unknown) => logFault("mail-invitation", error));
}
