import nodemailer from "nodemailer";
import { env } from "@/lib/server/env";
import { log } from "@/lib/server/log";

export type Mail = { readonly to: string; readonly subject: string; readonly text: string };

/**
 * Sends one mail by SMTP when LEHRBOOK_SMTP_URL is set; otherwise the text, with its link, is shown
 * in the terminal, which is where somebody trying the product looks for it.
 */
export async function sendMail(mail: Mail): Promise<void> {
  const { smtpUrl, mailFrom } = env();
  if (smtpUrl === undefined) {
    log.info({ to: mail.to, subject: mail.subject, text: mail.text }, "mail (no SMTP server is set)");
    return;
  }
  await nodemailer.createTransport(smtpUrl).sendMail({ from: mailFrom, ...mail });
}
