import { OPERATIONS } from "@/lib/contracts/api/operations";
import { planDocument } from "@/lib/domain/firing/plan-document";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: endpoint(OPERATIONS.planCasting, async ({ body }) => planDocument(body)),
});
