import { isId } from "@/lib/contracts/is-id";
import { can } from "@/lib/domain/access/roles";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { meshProgress } from "@/lib/server/queries/mesh";
import { currentWho } from "@/lib/server/session";

/** The body of the mesh that a form names; its volume decides the customary wall. The command asks again whose it is. */
export async function formMesh(meshId: string): Promise<MeshBody | undefined> {
  const who = isId(meshId) ? await currentWho() : null;
  if (who === null || !can(who.roles, "write-castings")) return undefined;
  const progress = await meshProgress(who, meshId);
  return progress?.state === "done" ? progress.mesh.body : undefined;
}
