import type { RouteContext, RouteHandler } from "@/lib/server/api/endpoint";
import { NOT_KEPT, problemResponse } from "@/lib/server/api/problem-response";

type Given = { readonly GET?: RouteHandler; readonly POST?: RouteHandler };
const ALL = ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"] as const;
type Methods = Readonly<Record<(typeof ALL)[number], RouteHandler>>;

/**
 * Answers an address with every method: those it has, and for the others "405" with what is allowed. No browser of
 * another site is let in: nothing here ever sends a header of cross-origin sharing.
 */
export function methods(given: Given): Methods {
  const allowed = ALL.filter((method) => method === "OPTIONS" || (method === "HEAD" ? given.GET : given[method as keyof Given]) !== undefined).join(", ");
  const refuse: RouteHandler = async (request) => problemResponse("method-not-allowed", request, [], { Allow: allowed });
  const options: RouteHandler = async () => new Response(null, { status: 204, headers: { ...NOT_KEPT, Allow: allowed } });
  const head: RouteHandler = async (request: Request, context: RouteContext) => bodiless(await (given.GET ?? refuse)(request, context));
  return { GET: given.GET ?? refuse, HEAD: head, POST: given.POST ?? refuse, PUT: refuse, PATCH: refuse, DELETE: refuse, OPTIONS: options };
}

function bodiless({ status, headers }: Response): Response {
  return new Response(null, { status, headers });
}
