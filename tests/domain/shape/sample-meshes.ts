import type { TriangleMesh } from "@/lib/domain/shape/mesh/triangle-mesh";

type Point = readonly [number, number, number];

function meshOf(triangles: readonly (readonly [Point, Point, Point])[]): TriangleMesh {
  return { corners: Float64Array.from(triangles.flatMap((triangle) => triangle.flatMap((point) => [...point]))) };
}

/** A closed grid of (u, v) squares, each two triangles, wound outwards. */
function woven(rows: number, columns: number, at: (row: number, column: number) => Point): [Point, Point, Point][] {
  const triangles: [Point, Point, Point][] = [];
  for (let r = 0; r < rows; r += 1) {
    for (let c = 0; c < columns; c += 1) {
      const [a, b, d, e] = [at(r, c), at(r, c + 1), at(r + 1, c), at(r + 1, c + 1)];
      triangles.push([a, d, b], [b, d, e]);
    }
  }
  return triangles;
}

export function brickMesh(a: number, b: number, c: number, at: Point = [0, 0, 0]): TriangleMesh {
  const p = (i: number): Point => [at[0] + (i & 1 ? a : 0), at[1] + (i & 2 ? b : 0), at[2] + (i & 4 ? c : 0)];
  const faces = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]] as const;
  return meshOf(faces.flatMap(([i, j, k, l]) => [[p(i), p(j), p(k)], [p(i), p(k), p(l)]] as [Point, Point, Point][]));
}

export function ballMesh(diameter: number, rows = 96): TriangleMesh {
  const r = diameter / 2;
  const at = (row: number, column: number): Point => {
    const polar = (Math.PI * row) / rows;
    const around = (Math.PI * (column % (2 * rows))) / rows;
    const flat = row === 0 || row === rows ? 0 : r * Math.sin(polar);
    return [flat * Math.cos(around), flat * Math.sin(around), r * Math.cos(polar)];
  };
  return meshOf(woven(rows, 2 * rows, at));
}

export function cylinderMesh(diameter: number, height: number, columns = 180): TriangleMesh {
  const rim = (column: number, z: number): Point => {
    const around = (2 * Math.PI * (column % columns)) / columns;
    return [(diameter / 2) * Math.cos(around), (diameter / 2) * Math.sin(around), z];
  };
  const triangles = woven(1, columns, (row, column) => rim(column, row === 0 ? height : 0));
  for (let c = 0; c < columns; c += 1) {
    triangles.push([[0, 0, height], rim(c, height), rim(c + 1, height)], [[0, 0, 0], rim(c + 1, 0), rim(c, 0)]);
  }
  return meshOf(triangles);
}

export function withoutTriangle({ corners }: TriangleMesh): TriangleMesh {
  return { corners: corners.slice(9) };
}

export function insideOut({ corners }: TriangleMesh): TriangleMesh {
  const turned = corners.slice();
  for (let t = 0; t < corners.length; t += 9) {
    turned.set(corners.slice(t + 3, t + 6), t + 6);
    turned.set(corners.slice(t + 6, t + 9), t + 3);
  }
  return { corners: turned };
}

export function together(...meshes: readonly TriangleMesh[]): TriangleMesh {
  return { corners: Float64Array.from(meshes.flatMap(({ corners }) => [...corners])) };
}

/** A pyramid on a square foot, steeper than 45° when it is taller than half its side. */
export function steeple(side: number, height: number): TriangleMesh {
  const corner = (x: number, y: number): Point => [x * side, y * side, 0];
  const [a, b, c, d, tip] = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1), [side / 2, side / 2, height] as Point];
  return meshOf([[a, c, b], [a, d, c], [a, b, tip], [b, c, tip], [c, d, tip], [d, a, tip]]);
}
