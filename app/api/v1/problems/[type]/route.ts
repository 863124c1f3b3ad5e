import { isProblemType, PROBLEM_TYPES } from "@/lib/contracts/api/problem-types";
import { methods } from "@/lib/server/api/methods";
import { NOT_KEPT, problemAddress, problemResponse } from "@/lib/server/api/problem-response";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: async (request, context) => {
    const type = String((await context.params)?.["type"]);
    if (!isProblemType(type)) return problemResponse("not-found", request);
    return Response.json({ type: problemAddress(type), ...PROBLEM_TYPES[type] }, { headers: NOT_KEPT });
  },
});
