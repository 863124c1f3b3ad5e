import type { Outcome } from "@/lib/domain/refusal";
import { litres } from "@/lib/domain/units";
import { writeAudit } from "@/lib/server/audit";
import { now, toDate } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import type { MeshTold } from "@/lib/server/mesh/run-mesh";
import type { SolvedMesh } from "@/lib/server/mesh/solve-mesh";
import { toJson } from "@/lib/server/runs/to-json";
import type { Who } from "@/lib/server/who";

type Reading = { readonly who: Who; readonly meshId: string };
const UNREAD = { notIn: ["done", "refused"] };

/** How far the reading has come. Not for the record: nobody did anything. */
export async function progressMesh({ who, meshId }: Reading, { step, percent }: MeshTold): Promise<void> {
  await inWorkshop(who.workshopId, (tx) => tx.mesh.updateMany({ where: { meshId, state: UNREAD }, data: { state: step, percent, touchedAt: toDate(now()) } }));
}

/** Says that this process still means to read them. */
export async function touchMeshes(all: readonly Reading[]): Promise<void> {
  for (const { who, meshId } of all) {
    await inWorkshop(who.workshopId, (tx) => tx.mesh.updateMany({ where: { meshId, state: UNREAD }, data: { touchedAt: toDate(now()) } }));
  }
}

/** Writes what a mesh turned out to be, once and for ever. */
export async function finishMesh({ who, meshId }: Reading, outcome: Outcome<SolvedMesh>): Promise<void> {
  const at = now();
  const data = outcome.ok
    ? { state: "done", percent: 100, triangles: outcome.value.triangles, body: toJson(outcome.value.body), drawing: Uint8Array.from(outcome.value.drawing) }
    : { state: "refused", problems: toJson(outcome.problems) };
  const after = outcome.ok ? { triangles: outcome.value.triangles, litres: litres(outcome.value.body.volumeM3) } : { refused: outcome.problems[0].message };
  await inWorkshop(who.workshopId, async (tx) => {
    const { count } = await tx.mesh.updateMany({ where: { meshId, state: UNREAD }, data: { ...data, touchedAt: toDate(at) } });
    if (count > 0) await writeAudit(tx, who, at, "read-mesh", { subject: "mesh", subjectId: meshId, after });
  });
}
