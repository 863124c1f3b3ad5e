import { createHash, randomBytes } from "node:crypto";

/** A link's secret, given out once; only its hash is kept. */
export function newToken(): { readonly token: string; readonly tokenHash: string } {
  const token = randomBytes(32).toString("base64url");
  return { token, tokenHash: hashToken(token) };
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
