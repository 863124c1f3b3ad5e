import type { TriangleMesh } from "./triangle-mesh";

/** The units a mesh may be drawn in; its file does not say. */
export const MESH_UNITS = ["mm", "cm", "m", "inch"] as const;
export type MeshUnit = (typeof MESH_UNITS)[number];

const METRES: Readonly<Record<MeshUnit, number>> = { mm: 0.001, cm: 0.01, m: 1, inch: 0.0254 };

/** Which way of the file points up in the kiln. */
export const MESH_UPS = ["+z", "-z", "+y", "-y", "+x", "-x"] as const;
export type MeshUp = (typeof MESH_UPS)[number];

type Turn = readonly [readonly [axis: number, sign: number], readonly [axis: number, sign: number], readonly [axis: number, sign: number]];

/** For each new axis, the old one it comes from: turns without mirroring. */
const TURNS: Readonly<Record<MeshUp, Turn>> = {
  "+z": [[0, 1], [1, 1], [2, 1]],
  "-z": [[0, 1], [1, -1], [2, -1]],
  "+y": [[0, 1], [2, -1], [1, 1]],
  "-y": [[0, 1], [2, 1], [1, -1]],
  "+x": [[2, -1], [1, 1], [0, 1]],
  "-x": [[2, 1], [1, 1], [0, -1]],
};

/** A mesh in the file's unit and position, in metres and the way it stands in the kiln. */
export function inMetres({ corners }: TriangleMesh, unit: MeshUnit, up: MeshUp): TriangleMesh {
  const scale = METRES[unit];
  const turned = new Float64Array(corners.length);
  for (let axis = 0; axis < 3; axis += 1) {
    const [from, sign] = TURNS[up][axis] ?? [axis, 1];
    for (let i = 0; i < corners.length; i += 3) turned[i + axis] = sign * scale * (corners[i + from] ?? 0);
  }
  return { corners: turned };
}
