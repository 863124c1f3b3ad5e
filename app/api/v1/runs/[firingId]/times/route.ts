import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { moveTimesAnswer } from "@/lib/server/api/times-answers";
import { moveTimes } from "@/lib/server/queries/move-times";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.findMove, async ({ who, params, query }) => moveTimesAnswer(await moveTimes(who, { ...params, ...query }))),
});
