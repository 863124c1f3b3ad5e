import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { Mesh, type BufferGeometry } from "three";
import { OBJLoader } from "three/examples/jsm/loaders/OBJLoader.js";
import { STLLoader } from "three/examples/jsm/loaders/STLLoader.js";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { meshBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";
import { metres } from "@/lib/domain/units";

/**
 * The body that an STL (binary or text) or OBJ file encloses; its numbers are millimetres. A relative path
 * is looked for where the command was started, then beside the casting's own file.
 */
export function readMesh(file: string, besides: string): Outcome<MeshBody> {
  const found = [path.resolve(file), path.resolve(besides, file)].find((candidate) => existsSync(candidate));
  if (found === undefined) return no(`piece.file is ${file}; there is no such file.`);
  const kind = path.extname(found).toLowerCase();
  if (kind !== ".stl" && kind !== ".obj") return no(`piece.file is ${file}; it must be an STL or OBJ file.`);
  try {
    return meshBody(kind === ".stl" ? readStl(readFileSync(found)) : readObj(readFileSync(found, "utf8")));
  } catch (error) {
    return no(`${file} cannot be read as ${kind.slice(1).toUpperCase()}: ${error instanceof Error ? error.message : "its content makes no sense"}.`);
  }
}

function no(message: string) {
  return refuse({ code: "mesh-not-read", field: "piece.file", message });
}

function readStl(bytes: Buffer): TriangleMesh {
  const copy = new ArrayBuffer(bytes.length);
  new Uint8Array(copy).set(bytes);
  return meshOf([new STLLoader().parse(copy)]);
}

function readObj(text: string): TriangleMesh {
  const geometries: BufferGeometry[] = [];
  new OBJLoader().parse(text).traverse((object) => {
    if (object instanceof Mesh) geometries.push(object.geometry);
  });
  return meshOf(geometries);
}

function meshOf(geometries: readonly BufferGeometry[]): TriangleMesh {
  const corners = geometries.flatMap((geometry) => {
    const plain = geometry.index === null ? geometry : geometry.toNonIndexed();
    return Array.from(plain.getAttribute("position")?.array ?? [], metres);
  });
  return { corners: Float64Array.from(corners) };
}

/** The body of a casting's mesh, where it has one. */
export function readMeshOf(piece: { readonly shape: string; readonly file?: string }, besides: string): Outcome<MeshBody | undefined> {
  if (piece.shape !== "mesh") return ok(undefined);
  if (piece.file === undefined) return no("piece.file is missing; a mesh needs the path of an STL or OBJ file.");
  return readMesh(piece.file, besides);
}
