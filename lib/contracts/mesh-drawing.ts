import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";

/*
 * The surface of a mesh on its way to the browser: "LBM1", the numbers of points and of triangles (32 bit,
 * little-endian), the points (three times 16 bit each), then the triangles (three times 32 bit each).
 */
const MARK = 0x31_4d_42_4c;
const HEAD = 12;

export function packDrawing({ points, triangles }: DrawnSurface): Uint8Array {
  const packed = new Uint8Array(HEAD + 2 * points.length + 4 * triangles.length);
  const view = new DataView(packed.buffer);
  view.setUint32(0, MARK, true);
  view.setUint32(4, points.length / 3, true);
  view.setUint32(8, triangles.length / 3, true);
  points.forEach((value, i) => view.setUint16(HEAD + 2 * i, value, true));
  triangles.forEach((value, i) => view.setUint32(HEAD + 2 * points.length + 4 * i, value, true));
  return packed;
}

export function unpackDrawing(packed: Uint8Array): Outcome<DrawnSurface> {
  const view = new DataView(packed.buffer, packed.byteOffset, packed.byteLength);
  const [points, triangles] = packed.length < HEAD || view.getUint32(0, true) !== MARK ? [-1, 0] : [3 * view.getUint32(4, true), 3 * view.getUint32(8, true)];
  if (points < 0 || packed.length !== HEAD + 2 * points + 4 * triangles) return refuse({ code: "malformed", message: "The drawing of the mesh did not arrive whole." });
  return ok({
    points: Uint16Array.from({ length: points }, (_, i) => view.getUint16(HEAD + 2 * i, true)),
    triangles: Uint32Array.from({ length: triangles }, (_, i) => view.getUint32(HEAD + 2 * points + 4 * i, true)),
  });
}
