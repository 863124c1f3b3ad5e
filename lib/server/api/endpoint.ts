import { randomUUID } from "node:crypto";
import type { z } from "zod";
import type { Operation } from "@/lib/contracts/api/operations";
import { problemsOf } from "@/lib/contracts/problems";
import { requestKeySchema } from "@/lib/contracts/runs";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import { bearerOf } from "@/lib/server/api/bearer";
import { NOT_KEPT, problemResponse } from "@/lib/server/api/problem-response";
import { problemTypeOf } from "@/lib/server/api/problem-type-of";
import { readBody } from "@/lib/server/api/read-body";
import { requestHash } from "@/lib/server/api/request-hash";
import { logFault } from "@/lib/server/log";
import { NotAllowed } from "@/lib/server/query";
import type { Who } from "@/lib/server/who";

/** What an operation's handler is given: who asks, and everything by its contract. */
export type Asked<P, Q, B> = {
  readonly who: Who;
  readonly params: P;
  readonly query: Q;
  readonly body: B;
  /** The script's own Idempotency-Key, or one that never comes again. */
  readonly requestKey: string;
  /** Of everything that was asked; goes with the key. */
  readonly requestHash: string;
};

type Answer<A> = Outcome<A> | null;
/** Next gives an address without parts of its own no params at all. */
export type RouteContext = { readonly params: Promise<Readonly<Record<string, string | readonly string[] | undefined>> | undefined> };
export type RouteHandler = (request: Request, context: RouteContext) => Promise<Response>;
type Shape = z.ZodObject;

/**
 * Makes one operation's route: token → scope → contract → handler → answer, and every refusal a problem document.
 * Only the Authorization header says who asks; cookies are not looked at. A handler's null is "not found".
 */
export function endpoint<P extends Shape, Q extends Shape, B extends z.ZodType, A extends z.ZodType>(
  operation: Operation<P, Q, B, A>,
  handle: (asked: Asked<z.infer<P>, z.infer<Q>, z.infer<B>>) => Promise<Answer<z.infer<A>>>,
  location?: (value: z.infer<A>) => string,
): RouteHandler {
  return async (request, context) => {
    try {
      const bearer = await bearerOf(request.headers.get("authorization"));
      if (bearer.is === "too-fast") return problemResponse("too-fast", request, [], { "Retry-After": String(bearer.waitSeconds) });
      if (bearer.is !== "known") return problemResponse("token-needed", request, [], { "WWW-Authenticate": challenge(bearer.is === "nobody" ? "" : ', error="invalid_token"') });
      if (!bearer.scopes.includes(operation.scope)) {
        return problemResponse("scope-missing", request, [], { "WWW-Authenticate": challenge(`, error="insufficient_scope", scope="${operation.scope}"`) });
      }
      const asked = await readAsked(operation, request, context, bearer.who);
      if (asked instanceof Response) return asked;
      const answer = await handle(asked);
      if (answer === null) return problemResponse("not-found", request);
      if (!answer.ok) return problemResponse(problemTypeOf(answer.problems[0]), request, answer.problems);
      const headers = location === undefined ? NOT_KEPT : { ...NOT_KEPT, Location: location(answer.value) };
      return Response.json(answer.value, { status: operation.status, headers });
    } catch (error) {
      if (error instanceof NotAllowed) return problemResponse("not-allowed", request);
      const id = logFault(operation.id, error);
      return problemResponse("fault", request, [{ code: "fault", message: `Something went wrong here; its number is ${id}.`, data: { id } }]);
    }
  };
}

const challenge = (more: string) => `Bearer realm="Lehrbook"${more}`;

async function readAsked<P extends Shape, Q extends Shape, B extends z.ZodType>(operation: Operation<P, Q, B>, request: Request, context: RouteContext, who: Who): Promise<Asked<z.infer<P>, z.infer<Q>, z.infer<B>> | Response> {
  const params = operation.params.safeParse((await context.params) ?? {});
  if (!params.success) return problemResponse("not-found", request);
  const given = Object.fromEntries(new URL(request.url).searchParams);
  const query = operation.query.safeParse(given);
  if (!query.success) return problemResponse("refused", request, problemsOf(query.error, given));
  const key = readKey(operation, request);
  if (typeof key !== "string") return problemResponse("malformed", request, [key]);
  const rest = { who, params: params.data, query: query.data, requestKey: key };
  if (operation.body === null) return { ...rest, body: null as z.infer<B>, requestHash: requestHash([operation.id, params.data]) };
  const sent = await readBody(request);
  if (!sent.ok) return problemResponse(sent.type, request, sent.problems, sent.type === "not-json" ? { "Accept-Post": "application/json" } : {});
  const body = operation.body.safeParse(sent.value);
  if (!body.success) return problemResponse("refused", request, problemsOf(body.error, sent.value));
  return { ...rest, body: body.data, requestHash: requestHash([operation.id, params.data, sent.value]) };
}

function readKey({ keyed }: Operation, request: Request): string | Problem {
  const sent = keyed ? request.headers.get("idempotency-key") : null;
  if (sent === null) return randomUUID();
  const key = requestKeySchema.safeParse(sent);
  return key.success ? key.data : { code: "malformed", field: "Idempotency-Key", value: sent, allowed: "8 to 200 characters", message: `The Idempotency-Key has ${sent.length} characters; it must have 8 to 200.` };
}
