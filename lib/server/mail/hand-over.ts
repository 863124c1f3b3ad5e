import { Readable } from "node:stream";
import { parseConnectionUrl } from "nodemailer/lib/shared/index.js";
import SMTPConnection from "nodemailer/lib/smtp-connection/index.js";
import type { Composed } from "@/lib/server/mail/compose";

const LIMITS = { connectionTimeout: 20_000, greetingTimeout: 20_000, socketTimeout: 60_000 };

/** Why a server did not take a mail. */
export class NotTaken extends Error {
  constructor(
    message: string,
    /** It will not take it later either. */
    readonly forGood: boolean,
    /** It said so itself. Without an answer, what was sent to it may have been taken all the same. */
    readonly answered: boolean,
  ) {
    super(message);
  }
}

/**
 * Hands one mail to an SMTP server and returns once the server has taken it.
 * @param beforeContent called when the server asks for the content and nothing of it has gone out: up to there
 *   nothing can have been taken, from there on only the server's answer tells. When it throws, nothing goes out.
 * @throws NotTaken
 */
export async function handOver(smtpUrl: string, mail: Composed, beforeContent: () => Promise<void>): Promise<void> {
  const options = { ...parseConnectionUrl(smtpUrl), ...LIMITS };
  const connection = new SMTPConnection(options);
  const lost = new Promise<never>((_, fail) => connection.once("error", (error) => fail(notTaken(error))));
  lost.catch(() => undefined);
  try {
    await Promise.race([lost, step((done) => connection.connect(done))]);
    const { user, pass } = (options.auth ?? {}) as { readonly user?: string; readonly pass?: string };
    if (user !== undefined && pass !== undefined) await Promise.race([lost, step((done) => connection.login({ user, pass }, done))]);
    await Promise.race([lost, send(connection, mail, beforeContent)]);
    connection.quit();
  } catch (error) {
    connection.close();
    throw error;
  }
}

async function send(connection: SMTPConnection, { from, to, raw }: Composed, beforeContent: () => Promise<void>): Promise<void> {
  let over = false;
  let failed: unknown;
  const content = Readable.from(
    (async function* () {
      // A server that refuses the addresses ends it before; what is then read leads nowhere.
      if (over) return;
      await beforeContent().catch((error: unknown) => {
        failed = error;
        throw error;
      });
      yield raw;
    })(),
  );
  await step((done) => {
    connection.send({ from, to: [to] }, content, (error) => {
      over = true;
      done(error ?? undefined);
    });
  }).catch((error: unknown) => {
    throw failed ?? error;
  });
}

function step(start: (done: (error?: Error | null) => void) => void): Promise<void> {
  return new Promise((resolve, reject) => start((error) => (error ? reject(notTaken(error)) : resolve())));
}

/** A code from 500 on is a refusal for good, but for the sign-in, which somebody can put right. */
function notTaken(error: SMTPConnection.SMTPError | Error): NotTaken {
  if (error instanceof NotTaken) return error;
  const { responseCode, command, response } = error as SMTPConnection.SMTPError;
  const ofTheMail = command === "MAIL FROM" || command === "RCPT TO" || command === "DATA";
  return new NotTaken(response ?? error.message, responseCode !== undefined && responseCode >= 500 && ofTheMail, responseCode !== undefined);
}
