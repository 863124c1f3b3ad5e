const ANYWHERE = "http://anywhere.invalid";
/** Backslashes and control characters are read by browsers as slashes or left out, and would change where a path leads. */
const UNUSUAL = /[\\\u0000-\u001f\u007f]/;

/**
 * Where to go after signing in: only a path of this site, whatever somebody put into the link.
 * Anything else, another site included, is the first page.
 *
 * @example sameSitePath("/castings?x=1") // "/castings?x=1"
 * @example sameSitePath("//elsewhere.example") // "/"
 */
export function sameSitePath(wish: unknown): string {
  if (typeof wish !== "string" || !wish.startsWith("/") || UNUSUAL.test(wish)) return "/";
  try {
    const url = new URL(wish, ANYWHERE);
    const path = `${url.pathname}${url.search}${url.hash}`;
    return url.origin === ANYWHERE && !path.startsWith("//") ? path : "/";
  } catch {
    return "/";
  }
}
