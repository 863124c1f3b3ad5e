import { createHash } from "node:crypto";

/** Kept by the one who asked and nobody between, and asked for again each time, so that a revoked address ends at once. */
const PRIVATE = { "Cache-Control": "private, no-cache", "X-Robots-Tag": "noindex" } as const;

/** The same answer for every address that opens nothing. */
export function noFeed(): Response {
  return new Response("There is no calendar at this address.\n", { status: 404, headers: { ...PRIVATE, "Cache-Control": "no-store", "Content-Type": "text/plain; charset=utf-8" } });
}

/** Asked too often: the calendar program keeps what it has until then. */
export function feedTooFast(waitSeconds: number): Response {
  return new Response(`This calendar was read too often; it is read again in ${waitSeconds} s.\n`, { status: 429, headers: { ...PRIVATE, "Cache-Control": "no-store", "Retry-After": String(waitSeconds), "Content-Type": "text/plain; charset=utf-8" } });
}

/** Something broke here: a calendar program keeps what it has and comes back. */
export function feedFault(id: string): Response {
  return new Response(`This calendar cannot be read just now (${id}).\n`, { status: 503, headers: { "Cache-Control": "no-store", "Retry-After": "600", "Content-Type": "text/plain; charset=utf-8" } });
}

/** The calendar, or only word that it is the one the program has already. */
export function feedResponse(calendar: string, ifNoneMatch: string | null): Response {
  const etag = `"${createHash("sha256").update(calendar).digest("base64url")}"`;
  const headers = { ...PRIVATE, ETag: etag };
  if (names(ifNoneMatch, etag)) return new Response(null, { status: 304, headers });
  return new Response(calendar, { headers: { ...headers, "Content-Type": "text/calendar; charset=utf-8" } });
}

/** Compared weakly, as RFC 9110 (13.1.2) wants it: what compresses on the way marks a tag as weak. */
function names(ifNoneMatch: string | null, etag: string): boolean {
  if (ifNoneMatch === null) return false;
  return ifNoneMatch.trim() === "*" || [...ifNoneMatch.matchAll(/"[^"]*"/g)].some(([tag]) => tag === etag);
}
