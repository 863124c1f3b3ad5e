import { MESH_STATES, type MeshProgress } from "@/lib/contracts/mesh";
import { can } from "@/lib/domain/access/roles";
import type { Problem } from "@/lib/domain/refusal";
import { toInstant } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { MESH_COLUMNS, storedMesh } from "@/lib/server/rows/mesh";

/** A reader says every five seconds that it still reads; after this long it was killed. */
const SILENT_AFTER_S = 30;

const INTERRUPTED: Problem = {
  code: "interrupted", field: "piece.file",
  message: "The server was stopped while it read the mesh, and the file is not kept. Send it again; everything else you typed is still here.",
};

/** How far the reading of a mesh is, or what came of it; null when it is not this person's to see. */
export const meshProgress = query({
  name: "mesh",
  needs: "write-castings",
  run: async ({ tx, who, now }, meshId: string): Promise<MeshProgress | null> => {
    const row = await tx.mesh.findFirst({
      where: { meshId, ...seenBy(who) },
      select: { ...MESH_COLUMNS, state: true, percent: true, touchedAt: true, problems: true },
    });
    if (row === null) return null;
    const state = MESH_STATES.find((one) => one === row.state) ?? "waiting";
    if (state === "done") return { state, mesh: storedMesh(row) };
    // Written by this application from its own refusals, and never changed since.
    if (state === "refused") return { state, problems: row.problems as unknown as readonly Problem[] };
    const silentS = now.since(toInstant(row.touchedAt)).total("seconds");
    return silentS > SILENT_AFTER_S ? { state: "interrupted", problems: [INTERRUPTED] } : { state, percent: row.percent };
  },
});

/** The packed surface of a mesh that was read; null when there is none or it is not this person's to see. */
export const meshDrawing = query({
  name: "mesh-drawing",
  needs: "write-castings",
  run: async ({ tx, who }, meshId: string): Promise<Uint8Array | null> => {
    const row = await tx.mesh.findFirst({ where: { meshId, state: "done", ...seenBy(who) }, select: { drawing: true } });
    return row?.drawing ?? null;
  },
});

/** One's own, one of a casting of one's own, and for a manager any. */
function seenBy({ memberId, roles }: Reading["who"]) {
  return can(roles, "manage-runs") ? {} : { OR: [{ memberId }, { castings: { some: { memberId } } }] };
}
