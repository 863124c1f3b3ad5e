/** Where and when a run could be, as an offer of times gives it. Instants as ISO 8601. */
export type RunTime = { readonly kilnId: string; readonly kilnFrom: string; readonly steamFrom: string | null };

/** One offered time as the value of its radio button, so that what is posted is what is chosen on screen. */
export function runTimeText({ kilnId, kilnFrom, steamFrom }: RunTime): string {
  return [kilnId, kilnFrom, ...(steamFrom === null ? [] : [steamFrom])].join(" ");
}

/** What a form posted as its chosen time, as text still to be checked; empty where nothing was chosen. */
export function readRunTime(posted: unknown): { readonly kilnId: string; readonly kilnFrom: string; readonly steamFrom?: string } {
  const [kilnId = "", kilnFrom = "", ...rest] = typeof posted === "string" ? posted.split(" ") : [];
  return { kilnId, kilnFrom, ...(rest.length === 0 ? {} : { steamFrom: rest.join(" ") }) };
}
