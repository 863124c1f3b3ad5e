/** What a hidden field of a form carries as JSON; undefined when it is none, for the contract to refuse. */
export function readJsonText(text: unknown): unknown {
  if (typeof text !== "string") return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
