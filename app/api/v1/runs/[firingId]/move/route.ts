import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { moveRun } from "@/lib/server/commands/move-run";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: endpoint(OPERATIONS.moveRun, async ({ who, params, body, requestKey, requestHash }) => moveRun(who, { ...body, ...params, requestKey }, requestHash)),
});
