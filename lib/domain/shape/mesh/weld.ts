import type { Box } from "./triangle-mesh";

/** Corners closer than this share of the box's diagonal are one corner: scans repeat them with rounding. */
const WELD = 1e-6;

/** The number of each corner, equal for corners in the same place, and how many different ones there are. */
export type Welded = { readonly nodes: Int32Array; readonly count: number };

/** By a table of whole numbers, not of texts: a scan has 600 000 corners. */
export function weld(corners: Float64Array, { min, max }: Box): Welded {
  const grain = WELD * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]) || 1;
  const [x0, y0, z0] = min;
  const places = corners.length / 3;
  const nodes = new Int32Array(places);
  const slots = 2 ** Math.ceil(Math.log2(2 * places + 2));
  const table = new Int32Array(slots).fill(-1);
  const known = new Int32Array(3 * places);
  let count = 0;
  for (let i = 0; i < places; i += 1) {
    const x = Math.round(((corners[3 * i] ?? 0) - x0) / grain);
    const y = Math.round(((corners[3 * i + 1] ?? 0) - y0) / grain);
    const z = Math.round(((corners[3 * i + 2] ?? 0) - z0) / grain);
    let slot = (Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663) ^ Math.imul(z, 83_492_791)) & (slots - 1);
    let node = table[slot] ?? -1;
    while (node >= 0 && !(known[3 * node] === x && known[3 * node + 1] === y && known[3 * node + 2] === z)) {
      slot = (slot + 1) & (slots - 1);
      node = table[slot] ?? -1;
    }
    if (node < 0) {
      node = count;
      count += 1;
      table[slot] = node;
      known[3 * node] = x;
      known[3 * node + 1] = y;
      known[3 * node + 2] = z;
    }
    nodes[i] = node;
  }
  return { nodes, count };
}
