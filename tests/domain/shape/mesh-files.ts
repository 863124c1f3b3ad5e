import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";

function triangles({ corners }: TriangleMesh): number[][] {
  return Array.from({ length: corners.length / 9 }, (_, at) => [...corners.slice(9 * at, 9 * at + 9)]);
}

/** 80 bytes of head, a count, then 50 bytes a triangle: normal, corners, two spare bytes. */
export function binaryStl(mesh: TriangleMesh): Uint8Array {
  const all = triangles(mesh);
  const view = new DataView(new ArrayBuffer(84 + 50 * all.length));
  view.setUint32(80, all.length, true);
  all.forEach((corners, at) => corners.forEach((value, i) => view.setFloat32(84 + 50 * at + 12 + 4 * i, value, true)));
  return new Uint8Array(view.buffer);
}

export function textStl(mesh: TriangleMesh): string {
  const facet = (c: readonly number[]) => `facet normal 0 0 0\nouter loop\n${[0, 3, 6].map((i) => `vertex ${c[i]} ${c[i + 1]} ${c[i + 2]}`).join("\n")}\nendloop\nendfacet`;
  return `solid piece\n${triangles(mesh).map(facet).join("\n")}\nendsolid piece\n`;
}

export function objText(mesh: TriangleMesh): string {
  const corners = triangles(mesh).flatMap((c) => [0, 3, 6].map((i) => `v ${c[i]} ${c[i + 1]} ${c[i + 2]}`));
  const faces = triangles(mesh).map((_, at) => `f ${3 * at + 1} ${3 * at + 2} ${3 * at + 3}`);
  return `o piece\n${[...corners, ...faces].join("\n")}\n`;
}
