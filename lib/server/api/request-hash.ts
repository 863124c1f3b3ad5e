import { createHash } from "node:crypto";

/** One hash for one request: the same whatever the order of its keys, another when anything else differs. */
export function requestHash(asked: unknown): string {
  return createHash("sha256").update(JSON.stringify(inOrder(asked))).digest("hex");
}

function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, inOrder(inner)]),
  );
}
