import { meshBodySchema, type ReadMesh } from "@/lib/contracts/mesh";
import { can } from "@/lib/domain/access/roles";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { MESH_UNITS, MESH_UPS } from "@/lib/domain/shape/mesh/turned";
import type { Tx } from "@/lib/server/db";
import type { Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

type MeshRow = { readonly meshId: string; readonly fileName: string; readonly unit: string; readonly up: string; readonly triangles: number | null; readonly body: unknown };

/** The columns of a mesh that was read, without its drawing. */
export const MESH_COLUMNS = { meshId: true, fileName: true, unit: true, up: true, triangles: true, body: true } as const;

/** @throws when the stored body is none; rows are only written through the same contract. */
export function storedBody(body: unknown): MeshBody {
  return meshBodySchema.parse(body);
}

/** The body of a casting's mesh that was read with it. */
export function bodyOf(mesh: { readonly body: unknown } | null): MeshBody | undefined {
  return mesh === null ? undefined : storedBody(mesh.body);
}

export function storedMesh(row: MeshRow): ReadMesh {
  const unit = MESH_UNITS.find((one) => one === row.unit);
  const up = MESH_UPS.find((one) => one === row.up);
  if (unit === undefined || up === undefined) throw new Error(`mesh ${row.meshId} is in ${row.unit}, ${row.up} up`);
  return { meshId: row.meshId, fileName: row.fileName, unit, up, triangles: row.triangles ?? 0, body: storedBody(row.body) };
}

/** The body of a casting's mesh, where it has one. */
export async function meshOf(tx: Statements, { piece }: CastingInput): Promise<MeshBody | undefined> {
  if (piece.shape !== "mesh" || piece.meshId === undefined) return undefined;
  const [row] = await tx.$queryRaw<readonly { readonly body: unknown }[]>`SELECT body FROM mesh WHERE mesh_id = ${piece.meshId}::uuid AND state = 'done'`;
  return bodyOf(row ?? null);
}

/**
 * The same for a casting that is being described: the mesh must be this person's own, unless they manage
 * the workshop or the casting has it already (`keeps`).
 */
export async function usableMesh({ tx, who }: { readonly tx: Tx; readonly who: Who }, { piece }: CastingInput, keeps?: string | null): Promise<Outcome<MeshBody | undefined>> {
  const { shape, meshId } = piece;
  if (meshId === undefined) return ok(undefined);
  if (shape !== "mesh") return refuse({ code: "not-beside-shape", field: "input.piece.meshId", value: meshId, allowed: "left out", message: `input.piece.meshId names a mesh, but the shape is ${shape}; leave it out.` });
  const row = await tx.mesh.findFirst({ where: { meshId }, select: { memberId: true, state: true, body: true } });
  if (row === null || (row.memberId !== who.memberId && meshId !== keeps && !can(who.roles, "manage-runs"))) {
    return refuse({ code: "not-found", field: "input.piece.meshId", message: "There is no such mesh of yours in this workshop. Send its file again." });
  }
  if (row.state !== "done") return refuse({ code: "mesh-not-read", field: "input.piece.meshId", message: "The mesh has not been read to the end. Wait until it is, or send its file again." });
  return ok(storedBody(row.body));
}
