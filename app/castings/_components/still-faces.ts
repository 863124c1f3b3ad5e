import { drawnSurface, FULL, type DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import type { MeshMark } from "./mesh-mark";
import { axesOf, type MeshView } from "./mesh-view";

type Point = readonly [number, number, number];
/** One visible triangle; `dark` is how much ink it takes, in per cent. */
export type StillFace = { readonly d: string; readonly dark: number };
export type Still = { readonly faces: readonly StillFace[]; readonly at: readonly [number, number]; readonly view: string };

/** So many paths are drawn in a moment. */
const MOST_FACES = 1500;
const SCALE = 1000;
const DARKEST = 40;
const EDGE = 20;

/** What is seen of a surface from one side, the nearest last, in thousandths of its longest side; y runs down. */
export function stillOf(surface: DrawnSurface, mark: MeshMark, from: MeshView): Still {
  const { towards, right, upward } = axesOf(from);
  const { points, triangles } = thinner(surface);
  const corner = (number: number): Point => [(points[3 * number] ?? 0) / FULL, (points[3 * number + 1] ?? 0) / FULL, (points[3 * number + 2] ?? 0) / FULL];
  const flat = (point: Point): readonly [number, number] => [Math.round(SCALE * dot(point, right)), Math.round(-SCALE * dot(point, upward))];
  const seen: (StillFace & { readonly near: number })[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [corner(triangles[i] ?? 0), corner(triangles[i + 1] ?? 0), corner(triangles[i + 2] ?? 0)];
    const normal = cross(minus(b, a), minus(c, a));
    const facing = dot(normal, towards) / (Math.hypot(...normal) || 1);
    if (!(facing > 0)) continue;
    seen.push({ d: `M${[a, b, c].map((point) => flat(point).join(" ")).join("L")}Z`, dark: Math.round(DARKEST * (1 - facing)), near: dot(a, towards) + dot(b, towards) + dot(c, towards) });
  }
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => flat([n & 1 ? mark.box[0] : 0, n & 2 ? mark.box[1] : 0, n & 4 ? mark.box[2] : 0]));
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs) - EDGE, Math.min(...ys) - EDGE];
  return {
    faces: seen.sort((one, other) => one.near - other.near).map(({ d, dark }) => ({ d, dark })),
    at: flat(mark.at),
    view: `${left} ${top} ${Math.max(...xs) + EDGE - left} ${Math.max(...ys) + EDGE - top}`,
  };
}

function thinner(surface: DrawnSurface): DrawnSurface {
  const { points, triangles } = surface;
  if (triangles.length <= 3 * MOST_FACES) return surface;
  const corners = new Float64Array(3 * triangles.length);
  triangles.forEach((number, i) => [0, 1, 2].forEach((axis) => (corners[3 * i + axis] = (points[3 * number + axis] ?? 0) / FULL)));
  return drawnSurface({ corners }, MOST_FACES);
}

function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function minus(a: Point, b: Point): Point {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function cross(a: Point, b: Point): Point {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
