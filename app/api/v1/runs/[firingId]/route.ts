import { OPERATIONS } from "@/lib/contracts/api/operations";
import { ok } from "@/lib/domain/refusal";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { runAnswer } from "@/lib/server/api/run-answer";
import { firingScreen } from "@/lib/server/queries/firing";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.readRun, async ({ who, params }) => {
    const screen = await firingScreen(who, params.firingId);
    return screen === null ? null : ok(runAnswer(screen));
  }),
});
