import { openApiDocument } from "@/lib/contracts/api/openapi";
import { methods } from "@/lib/server/api/methods";
import { NOT_KEPT } from "@/lib/server/api/problem-response";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: async () => Response.json(openApiDocument(), { headers: NOT_KEPT }),
});
