import MailComposer from "nodemailer/lib/mail-composer/index.js";

export type Letter = {
  readonly mailId: string;
  readonly from: string;
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  readonly writtenAt: Date;
  readonly publicUrl: string;
};

/** A mail as it goes over the wire, and from whom to whom. */
export type Composed = { readonly raw: Buffer; readonly from: string; readonly to: string };

/**
 * Plain text under RFC 5322. The same mail gives the same bytes every time, with the same Message-ID, so that a copy
 * sent again after a crash is recognised as one.
 */
export async function compose({ mailId, from, to, subject, text, writtenAt, publicUrl }: Letter): Promise<Composed> {
  const node = new MailComposer({
    from,
    to,
    subject,
    text,
    date: writtenAt,
    messageId: messageId(mailId, publicUrl),
    // RFC 3834: nobody's holiday answers this.
    headers: { "Auto-Submitted": "auto-generated" },
  }).compile();
  const sender = node.getEnvelope().from;
  if (sender === false) throw new Error(`LEHRBOOK_MAIL_FROM is no address: ${from}`);
  return { raw: await node.build(), from: sender, to };
}

export function messageId(mailId: string, publicUrl: string): string {
  return `<${mailId}@${new URL(publicUrl).hostname}>`;
}
