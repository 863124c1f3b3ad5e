import { sendMeshSchema } from "@/lib/contracts/mesh";
import { ok } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Time to describe a casting with it; after that an unused mesh goes when the next one comes. */
const KEPT_DAYS = 7;

/** Notes a mesh file that was received and is about to be read, and forgets one's own old ones that nothing came of. */
export const sendMesh = command({
  name: "send-mesh",
  needs: "write-castings",
  input: sendMeshSchema,
  run: async ({ who, tx, now, audit }, sent) => {
    const at = toDate(now);
    const old = toDate(now.subtract({ hours: 24 * KEPT_DAYS }));
    const { count: forgotten } = await tx.mesh.deleteMany({ where: { memberId: who.memberId, createdAt: { lt: old }, castings: { none: {} }, plans: { none: {} } } });
    const { meshId } = await tx.mesh.create({ data: { workshopId: who.workshopId, memberId: who.memberId, ...sent, touchedAt: at, createdAt: at } });
    await audit({ subject: "mesh", subjectId: meshId, after: { ...sent, ...(forgotten > 0 ? { forgotten } : {}) } });
    return ok({ meshId });
  },
});
