import { OPERATIONS } from "@/lib/contracts/api/operations";
import { ok } from "@/lib/domain/refusal";
import { belowInput, castingsAnswer } from "@/lib/server/api/casting-answers";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { createCasting } from "@/lib/server/commands/create-casting";
import { listCastings } from "@/lib/server/queries/castings";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.listCastings, async ({ who, query }) => ok(castingsAnswer(await listCastings(who, { all: query.all === "true" }), who))),
  POST: endpoint(OPERATIONS.createCasting, async ({ who, body, requestKey, requestHash }) => belowInput(await createCasting(who, { ...body, requestKey }, requestHash))),
});
