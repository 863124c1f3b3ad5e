import type { RouteHandler } from "@/lib/server/api/endpoint";
import { problemResponse } from "@/lib/server/api/problem-response";

/** Any other address of /api/v1: a script gets a problem document, not a page. */
const notFound: RouteHandler = async (request) => problemResponse("not-found", request);

export { notFound as DELETE, notFound as GET, notFound as HEAD, notFound as OPTIONS, notFound as PATCH, notFound as POST, notFound as PUT };
