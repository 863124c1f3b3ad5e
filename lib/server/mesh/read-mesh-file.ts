import { Mesh, type BufferGeometry } from "three";
import { OBJLoader } from "three/examples/jsm/loaders/OBJLoader.js";
import { STLLoader } from "three/examples/jsm/loaders/STLLoader.js";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";

const HEAD = 80;
const COUNT_END = 84;
const TRIANGLE_BYTES = 50;

/** The triangles of an STL (binary or text) or OBJ file, in its own unit. The kind goes by the name's ending. */
export function readMeshFile(fileName: string, bytes: Uint8Array): Outcome<TriangleMesh> {
  const kind = /\.(stl|obj)$/i.exec(fileName)?.[1]?.toLowerCase();
  if (kind === undefined) return no(`${fileName} must be an STL or OBJ file; its name must end in .stl or .obj.`);
  if (bytes.length === 0) return no(`${fileName} is empty: it holds 0 bytes.`);
  try {
    return kind === "stl" ? readStl(fileName, bytes) : readObj(fileName, bytes);
  } catch (error) {
    return no(`${fileName} cannot be read as ${kind.toUpperCase()}: ${error instanceof Error ? error.message : "its content makes no sense"}.`);
  }
}

function no(message: string) {
  return refuse({ code: "mesh-not-read", field: "piece.file", message });
}

/** The reader takes whatever it is given, so what cannot be an STL file is refused first. */
function readStl(fileName: string, bytes: Uint8Array): Outcome<TriangleMesh> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const told = bytes.length >= COUNT_END ? view.getUint32(HEAD, true) : -1;
  const room = Math.floor((bytes.length - COUNT_END) / TRIANGLE_BYTES);
  const text = told >= 0 && told === room ? undefined : textStl(bytes);
  if (text === undefined && !(told >= 0 && told <= room)) {
    return no(`${fileName} is no STL file: it does not begin like a text one${told < 0 ? "" : `, and as a binary one it would hold ${told} triangles but has room for ${Math.max(0, room)}`}.`);
  }
  const corners = text === undefined ? undefined : vertices(text);
  if (corners === 0) return ok({ corners: new Float64Array(0) });
  const mesh = meshOf([new STLLoader().parse(copyOf(bytes))]);
  if (corners !== undefined && mesh.corners.length !== 3 * corners) return no(`${fileName} has corners that are no numbers.`);
  return ok(mesh);
}

function textStl(bytes: Uint8Array): string | undefined {
  const start = new TextDecoder().decode(bytes.subarray(0, 4096));
  if (!/^\s*solid\b/i.test(start)) return undefined;
  return new TextDecoder().decode(bytes);
}

function vertices(text: string): number {
  let count = 0;
  for (let at = text.indexOf("vertex"); at >= 0; at = text.indexOf("vertex", at + 6)) count += 1;
  return count;
}

function readObj(fileName: string, bytes: Uint8Array): Outcome<TriangleMesh> {
  const geometries: BufferGeometry[] = [];
  new OBJLoader().parse(new TextDecoder().decode(bytes)).traverse((object) => {
    if (object instanceof Mesh) geometries.push(object.geometry);
  });
  const mesh = meshOf(geometries);
  return mesh.corners.length === 0 ? no(`${fileName} holds no triangles: is it an OBJ file with faces?`) : ok(mesh);
}

function copyOf(bytes: Uint8Array): ArrayBuffer {
  const copy = new ArrayBuffer(bytes.length);
  new Uint8Array(copy).set(bytes);
  return copy;
}

function meshOf(geometries: readonly BufferGeometry[]): TriangleMesh {
  const lists = geometries.map((geometry) => (geometry.index === null ? geometry : geometry.toNonIndexed()).getAttribute("position")?.array ?? []);
  const corners = new Float64Array(lists.reduce((sum, list) => sum + list.length, 0));
  let at = 0;
  for (const list of lists) {
    corners.set(list, at);
    at += list.length;
  }
  return { corners };
}
