import { unpackDrawing } from "@/lib/contracts/mesh-drawing";
import { paths } from "@/lib/contracts/paths";
import type { DrawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";

/** @throws when there is no answer, or it did not arrive whole */
export async function fetchDrawing(meshId: string): Promise<DrawnSurface> {
  const answer = await fetch(paths.meshDrawing(meshId));
  if (!answer.ok) throw new Error(`answered ${answer.status}`);
  const drawn = unpackDrawing(new Uint8Array(await answer.arrayBuffer()));
  if (!drawn.ok) throw new Error(drawn.problems[0].message);
  return drawn.value;
}
