import { describe, expect, it } from "vitest";
import { drawnSurface, FULL } from "@/lib/domain/shape/mesh/drawn-surface";
import { ballMesh, brickMesh } from "./sample-meshes";

describe("a surface for drawing", () => {
  it("keeps a small mesh as it is, each corner once", () => {
    const { points, triangles } = drawnSurface(brickMesh(0.2, 0.15, 0.1, [4, 5, 6]));
    expect(points).toHaveLength(3 * 8);
    expect(triangles).toHaveLength(3 * 12);
    expect([0, 1, 2].map((axis) => Math.max(...points.filter((_, i) => i % 3 === axis)))).toEqual([65_535, 49_151, 32_767]);
  });

  it("thins a scan to what is asked for, and stays within half a cell of it", () => {
    const ball = ballMesh(0.12, 128);
    const { points, triangles } = drawnSurface(ball, 2000);
    expect(triangles.length / 3).toBeLessThanOrEqual(2000);
    expect(triangles.length / 3).toBeGreaterThan(500);
    for (let i = 0; i < points.length; i += 3) {
      const away = Math.hypot(...[0, 1, 2].map((axis) => (points[i + axis] ?? 0) / FULL - 0.5));
      expect(Math.abs(away - 0.5)).toBeLessThan(0.05);
    }
    expect(Math.max(...triangles)).toBeLessThan(points.length / 3);
  });

  it("thins only a mesh of more triangles than may be drawn", () => {
    expect(drawnSurface(brickMesh(1, 1, 1), 12).triangles).toHaveLength(3 * 12);
    expect(drawnSurface(ballMesh(0.1, 25), 2499).triangles.length).toBeLessThan(3 * 2400);
  });
});
