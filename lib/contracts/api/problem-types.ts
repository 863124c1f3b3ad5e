import { z } from "zod";

type Kind = { readonly status: number; readonly title: string; readonly says: string };

/** Every kind of refusal of the HTTP interface, by the last part of its address. */
export const PROBLEM_TYPES = {
  "malformed": { status: 400, title: "The request cannot be read", says: "The body is not JSON, or a header is not in the expected form." },
  "token-needed": { status: 401, title: "A token is needed", says: "Send a live token as `Authorization: Bearer …`. One that is unknown or was revoked opens nothing." },
  "scope-missing": { status: 403, title: "The token may not do this", says: "The token's scopes do not cover this; make one with the scope that `WWW-Authenticate` names." },
  "not-allowed": { status: 403, title: "Not allowed", says: "The role of the token's owner does not allow this, or the thing is somebody else's." },
  "not-found": { status: 404, title: "Not found", says: "There is no such address, or this workshop has nothing with such an id." },
  "method-not-allowed": { status: 405, title: "Not with this method", says: "`Allow` names the methods that this address answers." },
  "conflict": { status: 409, title: "Something stands in the way", says: "What was asked for collides with what the calendar holds now; `problems` says who holds what until when, and the next start that would do." },
  "too-large": { status: 413, title: "The body is too large", says: "No request needs more than 64 KiB." },
  "not-json": { status: 415, title: "Only JSON is understood", says: "Send the body as `Content-Type: application/json`, in UTF-8 and not compressed." },
  "refused": { status: 422, title: "The request cannot be done as it is", says: "`problems` names every field at fault, its value and what would be allowed." },
  "key-reused": { status: 422, title: "This key asked for something else before", says: "An `Idempotency-Key` stands for one request; a new request needs a new key." },
  "too-fast": { status: 429, title: "Too many requests", says: "`Retry-After` says after how many seconds the next request is answered." },
  "fault": { status: 500, title: "Something went wrong here", says: "Nothing was changed. Repeat the request with the same key; if it stays, tell the manager the number." },
} as const satisfies Readonly<Record<string, Kind>>;

export type ProblemType = keyof typeof PROBLEM_TYPES;

export function isProblemType(text: string): text is ProblemType {
  return Object.hasOwn(PROBLEM_TYPES, text);
}

const problem = z.object({
  code: z.string().describe("Stable, for programs."),
  message: z.string().describe("One sentence for a person."),
  field: z.string().optional().describe("Dotted path of the input at fault."),
  value: z.unknown().optional().describe("What was given."),
  allowed: z.string().optional().describe("What would be allowed, in words."),
  heldBy: z.array(z.string()).optional().describe("Who or what holds the equipment."),
  until: z.iso.datetime({ offset: true }).optional().describe("What stands in the way is gone then."),
  nextKilnFrom: z.iso.datetime({ offset: true }).optional().describe("The next start of the kiln that would do."),
  equipmentId: z.uuid().optional(),
  firingId: z.uuid().optional(),
  id: z.string().optional().describe("Under which a fault stands in the log."),
});

/** RFC 9457. */
export const problemDocumentSchema = z
  .object({
    type: z.url(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    instance: z.string().describe("The address that was asked."),
    problems: z.array(problem),
  })
  .meta({ id: "ProblemDocument", description: "Why a request was refused (RFC 9457). Nothing was changed." });

export type ProblemDocument = z.infer<typeof problemDocumentSchema>;
export type ProblemEntry = z.infer<typeof problem>;

export const problemTypeSchema = z
  .object({ type: z.url(), title: z.string(), status: z.number().int(), says: z.string() })
  .meta({ id: "ProblemType", description: "What a kind of refusal means." });
