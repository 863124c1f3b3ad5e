import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { cooledThrough } from "./mesh-words";

/** Where the glass is thickest, in shares of the longest side of the box; `radius` is half the slab that cools alike, all round. */
export type MeshMark = { readonly at: readonly [number, number, number]; readonly radius: number; readonly box: readonly [number, number, number] };

export function markOf(body: MeshBody, cooling: string): MeshMark {
  const longest = Math.max(...body.boxM);
  const share = ([x, y, z]: readonly [number, number, number]) => [x / longest, y / longest, z / longest] as const;
  return { at: share(cooledThrough(body, cooling).thickestAtM), radius: Math.sqrt(8 * body.maxM2) / 2 / longest, box: share(body.boxM) };
}
