import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { solvedBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { notOneBody } from "@/lib/domain/shape/mesh/parts";
import { meshFacts } from "@/lib/domain/shape/mesh/triangle-mesh";
import { inMetres } from "@/lib/domain/shape/mesh/turned";
import { readMeshFile } from "@/lib/server/mesh/read-mesh-file";

/**
 * The one body that an STL (binary or text) or OBJ file encloses, refused with the reason when it is none or several; its numbers are millimetres, and z points up.
 * A relative path is looked for where the command was started, then beside the casting's own file.
 */
export function readMesh(file: string, besides: string): Outcome<MeshBody> {
  const found = [path.resolve(file), path.resolve(besides, file)].find((candidate) => existsSync(candidate));
  if (found === undefined) return no(`piece.file is ${file}; there is no such file.`);
  const mesh = readMeshFile(path.basename(found), readFileSync(found));
  if (!mesh.ok) return mesh;
  const inM = inMetres(mesh.value, "mm", "+z");
  const facts = meshFacts(inM);
  if (!facts.ok) return facts;
  return notOneBody(inM, facts.value) ?? solvedBody(inM, facts.value);
}

function no(message: string) {
  return refuse({ code: "mesh-not-read", field: "piece.file", message });
}

/** The body of a casting's mesh, where it has one. */
export function readMeshOf(piece: { readonly shape: string; readonly file?: string }, besides: string): Outcome<MeshBody | undefined> {
  if (piece.shape !== "mesh") return ok(undefined);
  if (piece.file === undefined) return no("piece.file is missing; a mesh needs the path of an STL or OBJ file.");
  return readMesh(piece.file, besides);
}
