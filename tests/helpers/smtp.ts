import type { AddressInfo } from "node:net";
import { SMTPServer, type SMTPServerDataStream } from "smtp-server";

export type Received = { readonly to: string; readonly raw: string; readonly messageId: string };

type Answers = {
  /** Refuses an address with this code and these words. */
  readonly onAddress?: (address: string) => { readonly code: number; readonly words: string } | undefined;
  /** Called when a mail has been taken, before the server says so; while it waits, the sender does not know. */
  readonly onTaken?: (received: Received) => Promise<{ readonly code: number; readonly words: string } | undefined>;
};

/** A real SMTP server on a port of its own, which keeps what it has taken. */
export async function startSmtp(answers: Answers = {}) {
  const received: Received[] = [];
  const server = new SMTPServer({
    disabledCommands: ["STARTTLS", "AUTH"],
    logger: false,
    onRcptTo: ({ address }, _session, done) => {
      const no = answers.onAddress?.(address);
      done(no === undefined ? null : withCode(no));
    },
    onData: (stream, session, done) => {
      void textOf(stream).then(async (raw) => {
        const mail = { to: session.envelope.rcptTo[0]?.address ?? "", raw, messageId: /^Message-ID: (.*)$/im.exec(raw)?.[1]?.trim() ?? "" };
        received.push(mail);
        const no = await answers.onTaken?.(mail);
        if (no !== undefined) received.pop();
        done(no === undefined ? null : withCode(no));
      }, () => undefined); // The sender broke off: nothing was taken.
    },
  });
  // A sender that is killed leaves a broken connection.
  server.on("error", () => undefined);
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.server.address() as AddressInfo;
  return {
    url: `smtp://127.0.0.1:${port}`,
    received,
    stop: () => new Promise<void>((done) => server.close(done)),
  };
}

function withCode({ code, words }: { readonly code: number; readonly words: string }): Error {
  return Object.assign(new Error(words), { responseCode: code });
}

async function textOf(stream: SMTPServerDataStream): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString("utf8");
}
