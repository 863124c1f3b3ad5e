import type { Welded } from "./weld";

export type OpenEdges = {
  /** Edges of one triangle only: the rims of holes. */
  readonly open: number;
  /** Edges whose triangles are wound opposite ways, or that join an odd number of them. */
  readonly turned: number;
  /** Rims that hang together; a hole each, unless two holes touch. */
  readonly holes: number;
  /** A corner on the rim with the most edges; −1 where nothing is open. */
  readonly at: number;
};

/** The edges that are not shared in opposite directions, none on a closed and consistently wound surface. */
export function openEdges(welded: Welded): OpenEdges {
  const { count } = welded;
  const keys = edgeKeys(welded);
  const rim: (readonly [number, number])[] = [];
  let turned = 0;
  for (let i = 0; i < keys.length; ) {
    const edge = Math.floor((keys[i] ?? 0) / 2);
    let uses = 0;
    let upward = 0;
    for (; i < keys.length && Math.floor((keys[i] ?? 0) / 2) === edge; i += 1) {
      uses += 1;
      upward += (keys[i] ?? 0) % 2;
    }
    if (2 * upward === uses) continue;
    if (uses > 1) turned += 1;
    else rim.push([Math.floor(edge / count), edge % count]);
  }
  return { open: rim.length, turned, ...holesOf(rim) };
}

/**
 * Twice the number of each edge's corner pair, plus one where the triangle runs along it upwards, sorted.
 * A triangle that lost its area in welding has two equal corners: its other two edges cancel.
 */
function edgeKeys({ nodes, count }: Welded): Float64Array {
  const keys = new Float64Array(nodes.length);
  let n = 0;
  for (let i = 0; i < nodes.length; i += 1) {
    const a = nodes[i] ?? 0;
    const b = nodes[i % 3 === 2 ? i - 2 : i + 1] ?? 0;
    if (a === b) continue;
    keys[n] = a < b ? 2 * (a * count + b) + 1 : 2 * (b * count + a);
    n += 1;
  }
  return keys.subarray(0, n).sort();
}

function holesOf(rim: readonly (readonly [number, number])[]): { readonly holes: number; readonly at: number } {
  const parent = new Map<number, number>();
  const rootOf = (node: number): number => {
    let root = node;
    for (let up = parent.get(root); up !== undefined && up !== root; up = parent.get(root)) root = up;
    parent.set(node, root);
    return root;
  };
  for (const [a, b] of rim) parent.set(rootOf(a), rootOf(b));
  const edges = new Map<number, number>();
  for (const [a] of rim) edges.set(rootOf(a), (edges.get(rootOf(a)) ?? 0) + 1);
  const largest = [...edges].reduce<readonly [number, number]>((most, one) => (one[1] > most[1] ? one : most), [-1, 0]);
  return { holes: edges.size, at: largest[0] };
}
