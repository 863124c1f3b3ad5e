import { createHash, createHmac, randomBytes } from "node:crypto";
import { env } from "@/lib/server/env";

/** A link's secret, given out once; only its hash is kept. */
export function newToken(): { readonly token: string; readonly tokenHash: string } {
  const token = randomBytes(32).toString("base64url");
  return { token, tokenHash: hashToken(token) };
}

/** What stands in a stored mail where the secret of its link goes in as it is sent. */
export const LINK_TOKEN = "{token}";

/**
 * The secret of a link that is mailed: worked out from the mail's random id and AUTH_SECRET, so that it lies in no
 * table, neither with the mail that waits nor with the job that sends it.
 */
export function linkToken(mailId: string): { readonly token: string; readonly tokenHash: string } {
  const token = createHmac("sha256", env().authSecret).update(`link of mail ${mailId}`).digest("base64url");
  return { token, tokenHash: hashToken(token) };
}

/** The kinds of mail that carry such a link; in any other those characters are somebody's own words. */
const WITH_LINK: readonly string[] = ["invitation", "password-reset"];

export function withLinkToken({ kind, body, mailId }: { readonly kind: string; readonly body: string; readonly mailId: string }): string {
  return WITH_LINK.includes(kind) ? body.replaceAll(LINK_TOKEN, linkToken(mailId).token) : body;
}

/** 256 random bits cannot be guessed, so a plain SHA-256 is enough, and quick enough for every request. */
export function hashToken(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}

/** How a script's token begins, so that one that got lost in a file is recognised. */
export const SCRIPT_TOKEN = "lbk_";
const SHOWN_CHARS = SCRIPT_TOKEN.length + 6;

/** A script's secret, given out once; its beginning is kept to tell it from others. */
export function newScriptToken(): { readonly token: string; readonly tokenHash: string; readonly prefix: string } {
  const token = `${SCRIPT_TOKEN}${randomBytes(32).toString("base64url")}`;
  return { token, tokenHash: hashToken(token), prefix: token.slice(0, SHOWN_CHARS) };
}
