import type { PreparedSharer } from "./sharer";

/** One sentence that says which casting sets a stage. `alike`: all of them ask for the same. */
export function governs(sharers: readonly PreparedSharer[], governor: PreparedSharer | undefined, alike: boolean, why: string): string {
  const who = alike && sharers.length > 1 ? "All castings ask for the same" : `${governor?.title ?? "The kiln"} governs`;
  const text = /^[A-Z][a-z]/.test(why) ? `${why.charAt(0).toLowerCase()}${why.slice(1)}` : why;
  return `${who}: ${text}${text.endsWith(".") ? "" : "."}`;
}
