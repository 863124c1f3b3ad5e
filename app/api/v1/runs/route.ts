import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { bookRun } from "@/lib/server/commands/book-run";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: endpoint(
    OPERATIONS.bookRun,
    async ({ who, body, requestKey, requestHash }) => bookRun(who, { ...body, requestKey }, requestHash),
    ({ firingId }) => `/api/v1/runs/${firingId}`,
  ),
});
