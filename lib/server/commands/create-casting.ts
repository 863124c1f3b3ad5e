import { createCastingSchema } from "@/lib/contracts/casting";
import { planFiring } from "@/lib/domain/firing/plan";
import { ok } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { dateColumn } from "@/lib/server/rows/casting";
import { usableMesh } from "@/lib/server/rows/mesh";

/** Describes a new casting of one's own. Refused when it could not be planned. */
export const createCasting = command({
  name: "create-casting",
  needs: "write-castings",
  input: createCastingSchema,
  once: ({ requestKey }) => requestKey,
  run: async ({ who, tx, now, audit }, { title, input, neededBy }) => {
    const mesh = await usableMesh({ tx, who }, input);
    if (!mesh.ok) return mesh;
    const planned = planFiring(input, mesh.value);
    if (!planned.ok) return planned;
    const at = toDate(now);
    const { castingId } = await tx.casting.create({
      data: {
        workshopId: who.workshopId,
        memberId: who.memberId,
        title,
        input,
        neededBy: dateColumn(neededBy),
        createdAt: at,
        updatedAt: at,
      },
    });
    await audit({ subject: "casting", subjectId: castingId, after: { title, input, neededBy } });
    return ok({ castingId });
  },
});
