import { removeClosureSchema } from "@/lib/contracts/hours";
import { ok, refuse } from "@/lib/domain/refusal";
import { toPlainDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Opens the workshop again on the days of a closure. */
export const removeClosure = command({
  name: "remove-closure",
  needs: "manage-hours",
  input: removeClosureSchema,
  run: async ({ tx, audit }, { closureId, reason }) => {
    const closure = await tx.closure.findFirst({ where: { closureId } });
    const { count } = await tx.closure.deleteMany({ where: { closureId } });
    if (closure === null || count === 0) return refuse({ code: "not-found", message: "There is no such closure in this workshop.", field: "closureId" });
    const before = { from: toPlainDate(closure.fromDate).toString(), to: toPlainDate(closure.toDate).toString(), reason: closure.reason };
    await audit({ subject: "closure", subjectId: closureId, before, ...(reason ? { reason } : {}) });
    return ok({ reason: closure.reason });
  },
});
