import Ajv2020 from "ajv/dist/2020.js";
import addFormatsModule from "ajv-formats";
import { z } from "zod";

const schema = z.record(z.string(), z.unknown());
const operation = z.looseObject({
  operationId: z.string(),
  security: z.array(z.record(z.string(), z.array(z.string()))).optional(),
  parameters: z.array(z.looseObject({ name: z.string(), in: z.string(), required: z.boolean() })).default([]),
  requestBody: z.looseObject({ content: z.record(z.string(), z.looseObject({ schema })) }).optional(),
  responses: z.record(z.string(), z.looseObject({ content: z.record(z.string(), z.looseObject({ schema })), headers: z.record(z.string(), z.unknown()).optional() })),
});
const document = z.looseObject({
  paths: z.record(z.string(), z.record(z.string(), operation)),
  components: z.looseObject({ schemas: z.record(z.string(), schema) }),
});

/** The printed description as a script would read it. */
export type Printed = z.infer<typeof document>;
export type PrintedOperation = z.infer<typeof operation>;

export function readPrinted(printed: unknown): Printed {
  return document.parse(printed);
}

/** Every object within a value, with where it stands. */
export function objectsIn(value: unknown, at = "#"): readonly (readonly [at: string, object: Readonly<Record<string, unknown>>])[] {
  if (typeof value !== "object" || value === null) return [];
  const inner = Object.entries(value).flatMap(([key, one]) => objectsIn(one, `${at}/${key}`));
  return Array.isArray(value) ? inner : [[at, value as Record<string, unknown>], ...inner];
}

/**
 * Checks a value against a schema of the document, by an independent validator of JSON schema 2020-12. Stricter than a
 * script would be: a key that is not described is a fault too. Answers with the faults.
 */
export function faultsAgainst(printed: Printed): (schema: Readonly<Record<string, unknown>>, value: unknown) => readonly string[] {
  const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true, strictTypes: false });
  // A CommonJS module: its function is the default of what is imported.
  addFormatsModule.default(ajv);
  ajv.addSchema(closed({ $id: "printed", $defs: printed.components.schemas }) as Record<string, unknown>);
  return (one, value) => {
    const check = ajv.compile(closed(one) as Record<string, unknown>);
    return check(value) ? [] : (check.errors ?? []).map(({ instancePath, message = "", params }) => `${instancePath} ${message} ${JSON.stringify(params)}`);
  };
}

function closed(one: unknown): unknown {
  if (Array.isArray(one)) return one.map(closed);
  if (typeof one !== "object" || one === null) return one;
  const entries = Object.entries(one).map(([key, inner]) => [key, key === "$ref" ? String(inner).replace("#/components/schemas/", "printed#/$defs/") : closed(inner)] as const);
  return { ...Object.fromEntries(entries), ..."properties" in one && "type" in one ? { additionalProperties: false } : {} };
}
