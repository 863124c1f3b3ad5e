import { OPERATIONS } from "@/lib/contracts/api/operations";
import { readDay } from "@/lib/contracts/day";
import { ok } from "@/lib/domain/refusal";
import { endpoint } from "@/lib/server/api/endpoint";
import { liftsAnswer } from "@/lib/server/api/lifts-answer";
import { methods } from "@/lib/server/api/methods";
import { liftSheet } from "@/lib/server/queries/lift-sheet";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.listLifts, async ({ who, query }) => ok(liftsAnswer(await liftSheet(who, readDay(query.day)), who))),
});
