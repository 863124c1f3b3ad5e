import { refuse, type Refusal } from "@/lib/domain/refusal";
import { litres } from "@/lib/domain/units";
import { signedVolume } from "./sums";
import type { MeshFacts, TriangleMesh } from "./triangle-mesh";

/** How many parts a refusal lists by their size. */
const LISTED = 4;

/**
 * Refuses a closed surface that is not one solid body: turned inside out, in several separate bodies, or
 * with a hollow inside, which no mould could fill. A scan's floating crumbs count as bodies.
 */
export function notOneBody(mesh: TriangleMesh, facts: MeshFacts): Refusal | undefined {
  const parts = partVolumes(mesh, facts);
  const [first = 0] = parts;
  if (parts.length === 1) {
    return first > 0 ? undefined : no("mesh-inside-out", "The mesh is inside out: its triangles face inwards. Turn its faces (or normals) outwards and save it again.");
  }
  const hollow = parts.filter((volume) => volume < 0).length;
  const sizes = parts.slice(0, LISTED).map((volume) => (volume < 0 ? `a hollow of ${inLitres(-volume)}` : inLitres(volume)));
  const more = parts.length > LISTED ? ` and ${parts.length - LISTED} smaller` : "";
  const advice = hollow > 0 ? "Close what is hollow and turn all faces outwards" : "Join them into one, or take away what does not belong";
  return no("mesh-several-bodies", `The mesh is in ${parts.length} separate bodies (${sizes.join(", ")}${more}); a casting is one. ${advice}, and save it again.`);
}

/** Signed volumes of the parts that hang together, largest first; below zero where a part faces inwards. */
function partVolumes({ corners }: TriangleMesh, { welded: { nodes, count } }: MeshFacts): readonly number[] {
  const parent = Int32Array.from({ length: count }, (_, node) => node);
  for (let i = 0; i < nodes.length; i += 3) {
    const root = rootOf(parent, nodes[i] ?? 0);
    parent[rootOf(parent, nodes[i + 1] ?? 0)] = root;
    parent[rootOf(parent, nodes[i + 2] ?? 0)] = root;
  }
  const volumes = new Map<number, number>();
  for (let i = 0; i < nodes.length; i += 3) {
    const root = rootOf(parent, nodes[i] ?? 0);
    volumes.set(root, (volumes.get(root) ?? 0) + signedVolume(corners, 3 * i));
  }
  return [...volumes.values()].sort((a, b) => Math.abs(b) - Math.abs(a));
}

function rootOf(parent: Int32Array, node: number): number {
  let at = node;
  while (parent[at] !== at) {
    parent[at] = parent[parent[at] ?? at] ?? at;
    at = parent[at] ?? at;
  }
  return at;
}

function inLitres(volumeM3: number): string {
  return `${Number(litres(volumeM3).toPrecision(2))} L`;
}

function no(code: string, message: string): Refusal {
  return refuse({ code, field: "piece.file", message });
}
