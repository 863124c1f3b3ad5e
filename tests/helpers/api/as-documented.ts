import assert from "node:assert/strict";
import { OPERATIONS } from "@/lib/contracts/api/operations";
import { faultsAgainst, readPrinted } from "./printed";

type Called = { readonly status: number; readonly headers: Headers; readonly body: unknown };
type Id = keyof typeof OPERATIONS;

export type Documented = {
  /** Holds an answer against what the description says of this operation: status, kind, headers and every key. */
  readonly asDocumented: <C extends Called>(id: Id, called: C) => C;
  /** The operations that were answered with success at least once. */
  readonly answered: () => readonly string[];
};

/** @param description the printed document, as it came over the wire */
export function documentedBy(description: unknown): Documented {
  const printed = readPrinted(description);
  const faultsOf = faultsAgainst(printed);
  const answered = new Set<string>();
  const asDocumented = <C extends Called>(id: Id, called: C): C => {
    const { path, method, status } = OPERATIONS[id];
    const kind = called.headers.get("content-type") ?? "";
    const documented = printed.paths[path]?.[method]?.responses[String(called.status)];
    const schema = documented?.content[kind]?.schema;
    if (schema === undefined) assert.fail(`${id}: ${called.status} as ${kind} is not documented: ${JSON.stringify(called.body)}`);
    assert.deepEqual({ id, status: called.status, faults: faultsOf(schema, called.body) }, { id, status: called.status, faults: [] });
    const missing = Object.keys(documented?.headers ?? {}).filter((header) => !called.headers.has(header));
    assert.deepEqual({ id, missing, kept: called.headers.get("cache-control") }, { id, missing: [], kept: "no-store" });
    if (called.status === status) answered.add(id);
    return called;
  };
  return { asDocumented, answered: () => [...answered].sort() };
}
