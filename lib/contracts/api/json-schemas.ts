import { z } from "zod";

export type JsonSchema = Readonly<Record<string, unknown>>;

/** Turns contracts into JSON schemas (2020-12) that share their named parts below `#/components/schemas`. */
export function jsonSchemas(): { readonly of: (contract: z.ZodType) => JsonSchema; readonly named: () => Readonly<Record<string, JsonSchema>> } {
  const named = new Map<string, JsonSchema>();
  return {
    of: (contract) => {
      // Within an object even a named contract becomes a reference to its part.
      const { properties, $defs = {} } = z.toJSONSchema(z.object({ it: contract }), { io: "input" });
      for (const [name, schema] of Object.entries($defs)) named.set(name, shared(schema) as JsonSchema);
      return shared(properties?.["it"]) as JsonSchema;
    },
    named: () => Object.fromEntries([...named].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

function shared(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(shared);
  if (typeof schema !== "object" || schema === null) return schema;
  return Object.fromEntries(
    Object.entries(schema).map(([key, inner]) => [key, key === "$ref" && typeof inner === "string" ? inner.replace("#/$defs/", "#/components/schemas/") : shared(inner)]),
  );
}
