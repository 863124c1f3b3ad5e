import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { cancelRun } from "@/lib/server/commands/cancel-run";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: endpoint(OPERATIONS.cancelRun, async ({ who, params, body, requestKey, requestHash }) => cancelRun(who, { ...body, ...params, requestKey }, requestHash)),
});
