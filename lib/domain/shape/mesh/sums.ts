/*
 * Called for each of a scan's triangles: written out, since a closure or a small array for each would
 * take longer than the sums.
 */

/** The signed volume of the tetrahedron between the origin and the triangle at `t`, m³. */
export function signedVolume(corners: Float64Array, t: number): number {
  const ax = corners[t] ?? 0;
  const ay = corners[t + 1] ?? 0;
  const az = corners[t + 2] ?? 0;
  const bx = corners[t + 3] ?? 0;
  const by = corners[t + 4] ?? 0;
  const bz = corners[t + 5] ?? 0;
  const cx = corners[t + 6] ?? 0;
  const cy = corners[t + 7] ?? 0;
  const cz = corners[t + 8] ?? 0;
  return (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
}

/** Area of the triangle at `t`, m². */
export function areaOf(corners: Float64Array, t: number): number {
  const ux = (corners[t + 3] ?? 0) - (corners[t] ?? 0);
  const uy = (corners[t + 4] ?? 0) - (corners[t + 1] ?? 0);
  const uz = (corners[t + 5] ?? 0) - (corners[t + 2] ?? 0);
  const vx = (corners[t + 6] ?? 0) - (corners[t] ?? 0);
  const vy = (corners[t + 7] ?? 0) - (corners[t + 1] ?? 0);
  const vz = (corners[t + 8] ?? 0) - (corners[t + 2] ?? 0);
  return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
}
