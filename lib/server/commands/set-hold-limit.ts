import { setHoldLimitSchema } from "@/lib/contracts/runs";
import { ok } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";

/** How many runs each member may hold at once. What is held already stays held. */
export const setHoldLimit = command({
  name: "set-hold-limit",
  needs: "settle-clashes",
  input: setHoldLimitSchema,
  run: async ({ tx, who, audit }, { holdsEach }) => {
    const { workshopId } = who;
    const before = await tx.workshop.findUniqueOrThrow({ where: { workshopId } });
    await tx.workshop.update({ where: { workshopId }, data: { holdsEach } });
    await audit({ subject: "workshop", subjectId: workshopId, before: { holdsEach: before.holdsEach }, after: { holdsEach } });
    return ok({ holdsEach });
  },
});
