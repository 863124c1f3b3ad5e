import type { z } from "zod";
import { KEPT_DAYS } from "@/lib/contracts/kept";
import { ALWAYS, OPERATIONS, WITH_BODY, type Operation } from "./operations";
import { jsonSchemas, type JsonSchema } from "./json-schemas";
import { PROBLEM_TYPES, problemDocumentSchema, problemTypeSchema, type ProblemType } from "./problem-types";

const ABOUT = `For a workshop's own scripts. Make a token on the profile page or with \`npm run --silent token\` and send it as \`Authorization: Bearer …\`; a token does what its scopes and its owner's roles allow, in its owner's workshop, and never more.

Every refusal is a problem document (RFC 9457) that names field, value and what would be allowed. An address answers other methods with 405 and \`Allow\`. A token may make a burst of requests and then so many a minute; beyond that the answer is 429 with \`Retry-After\` in seconds.

Commands take an \`Idempotency-Key\`, one for each thing you want done: the same key with the same request returns the first answer instead of doing it twice, with another request it is refused. A key is remembered for ${KEPT_DAYS.receipt} days; after that it is a new one. Refusals are not kept; the same key may be tried again.

Instants are ISO 8601; intervals are half-open. More keys may stand in an answer than are described here.`;

/** The printed description of the HTTP interface, OpenAPI 3.1, made from the contracts that its routes parse by. */
export function openApiDocument(): JsonSchema {
  const schemas = jsonSchemas();
  const problem = schemas.of(problemDocumentSchema);
  const paths: Record<string, Record<string, JsonSchema>> = {
    "/openapi.json": { get: openOperation("describe", "This description", { type: "object" }) },
    "/problems/{type}": { get: { ...openOperation("readProblemType", "What a kind of refusal means", schemas.of(problemTypeSchema)), parameters: [{ name: "type", in: "path", required: true, schema: { type: "string", enum: Object.keys(PROBLEM_TYPES) } }] } },
  };
  for (const operation of Object.values(OPERATIONS)) {
    (paths[operation.path] ??= {})[operation.method] = operationObject(operation, problem, schemas.of);
  }
  return {
    openapi: "3.1.1",
    info: { title: "Lehrbook", version: "1.0.0", description: ABOUT },
    servers: [{ url: "/api/v1" }],
    security: [{ token: [] }],
    paths,
    components: { schemas: schemas.named(), securitySchemes: { token: { type: "http", scheme: "bearer", description: "A script's token, lbk_…" } } },
  };
}

/** Without a token: what describes the interface is open to everybody. */
function openOperation(operationId: string, summary: string, schema: JsonSchema): JsonSchema {
  return { operationId, summary, security: [], responses: { 200: { description: summary, content: { "application/json": { schema } } } } };
}

type SchemaOf = (contract: z.ZodType) => JsonSchema;

function operationObject(operation: Operation, problem: JsonSchema, schemaOf: SchemaOf): JsonSchema {
  const { id, summary, about, scope, body, status, answer } = operation;
  const headers = status === 201 && id === "bookRun" ? { headers: { Location: { schema: { type: "string" }, description: "The address of the run." } } } : {};
  return {
    operationId: id,
    summary,
    description: `${about === undefined ? "" : `${about} `}Needs the scope \`${scope}\`.`,
    security: [{ token: [scope] }],
    parameters: parametersOf(operation, schemaOf),
    ...(body === null ? {} : { requestBody: { required: !body.safeParse({}).success, content: { "application/json": { schema: schemaOf(body) } } } }),
    responses: {
      [status]: { description: "Done.", ...headers, content: { "application/json": { schema: schemaOf(answer) } } },
      ...refusalsOf(operation, problem),
    },
  };
}

function parametersOf({ params, query, keyed }: Operation, schemaOf: SchemaOf): readonly JsonSchema[] {
  const from = (shape: z.ZodObject, place: "path" | "query") =>
    Object.entries(shape.shape).map(([name, contract]) => {
      const { description, ...schema } = schemaOf(contract as z.ZodType);
      const required = place === "path" || !(contract as z.ZodType).safeParse(undefined).success;
      return { name, in: place, required, ...(description === undefined ? {} : { description }), schema };
    });
  const key = { name: "Idempotency-Key", in: "header", required: false, description: "Yours, for this one request and its repetitions.", schema: { type: "string", minLength: 8, maxLength: 200 } };
  return [...from(params, "path"), ...from(query, "query"), ...(keyed ? [key] : [])];
}

const HEADERS: Readonly<Record<number, JsonSchema>> = {
  401: { "WWW-Authenticate": { schema: { type: "string" } } },
  429: { "Retry-After": { schema: { type: "integer", minimum: 1 }, description: "Seconds." } },
};

/** All refusals with one status stand together. */
function refusalsOf({ body, keyed, refusals }: Operation, problem: JsonSchema): JsonSchema {
  const types: readonly ProblemType[] = [...new Set<ProblemType>([...ALWAYS, ...(body === null ? [] : WITH_BODY), ...(keyed ? (["key-reused"] as const) : []), ...refusals])];
  const statuses = [...new Set(types.map((type) => PROBLEM_TYPES[type].status))].sort((a, b) => a - b);
  return Object.fromEntries(
    statuses.map((status) => {
      const here = types.filter((type) => PROBLEM_TYPES[type].status === status);
      const description = here.map((type) => `${PROBLEM_TYPES[type].title}. ${PROBLEM_TYPES[type].says}`).join(" Or: ");
      const headers = HEADERS[status];
      return [String(status), { description, ...(headers === undefined ? {} : { headers }), content: { "application/problem+json": { schema: problem } } }];
    }),
  );
}
