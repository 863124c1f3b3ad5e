import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { timesAnswer } from "@/lib/server/api/times-answers";
import { findTime } from "@/lib/server/queries/find-time";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.findTime, async ({ who, params, query }) => timesAnswer(await findTime(who, { ...params, ...query }))),
});
