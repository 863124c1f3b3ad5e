import { OPERATIONS } from "@/lib/contracts/api/operations";
import { aboveInput } from "@/lib/server/api/casting-answers";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { planCasting } from "@/lib/server/api/plan-casting";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: endpoint(OPERATIONS.planCasting, async ({ who, body }) => aboveInput(await planCasting(who, body))),
});
