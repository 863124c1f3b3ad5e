type Fields = Readonly<Record<string, unknown>>;

/**
 * Two states of a thing with only what differs between them, however deep; its name stays, to say what it is.
 * Without both there is nothing to compare, and they are returned as they are.
 */
export function onlyChanges(before: unknown, after: unknown): readonly [before: unknown, after: unknown] {
  if (!isFields(before) || !isFields(after)) return [before, after];
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  const [was, is]: [Record<string, unknown>, Record<string, unknown>] = [{}, {}];
  for (const key of keys) {
    const [a, b] = [before[key], after[key]];
    if (JSON.stringify(a) === JSON.stringify(b) && key !== "name") continue;
    const [inA, inB] = onlyChanges(a, b);
    if (a !== undefined) was[key] = inA;
    if (b !== undefined) is[key] = inB;
  }
  return [was, is];
}

function isFields(value: unknown): value is Fields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
