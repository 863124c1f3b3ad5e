import { refuse, type Outcome } from "@/lib/domain/refusal";
import { apart } from "./common-range";
import { flowRange } from "./joined-flow";
import { soakRange } from "./joined-soak";
import { layOut, type LaidSharer, type Sharer } from "./sharer";
import { shelfFor, type ShelfLimits, type ShelfLoad } from "./shelf-for";

/**
 * Whether castings could share a kiln, as far as that is seen at once: a flow and a soak for all glasses, and room
 * on the shelf. Whether a program keeps each within its stress level only `joinPlans` can tell.
 */
export function mayShare(sharers: readonly Sharer[], limits: ShelfLimits): Outcome<ShelfLoad> {
  const laid: LaidSharer[] = [];
  for (const sharer of sharers) {
    const one = layOut(sharer);
    if (!one.ok) return refuse({ ...one.problems[0], message: `${sharer.title}: ${one.problems[0].message}` });
    laid.push(one.value);
  }
  return apart("flow", laid.map(flowRange)) ?? apart("soak", laid.map(soakRange)) ?? shelfFor(laid, limits);
}

/** Where a lone casting stands: in the middle of its shelf. Undefined where it does not fit. */
export function shelfAlone(sharer: Sharer, limits: ShelfLimits): ShelfLoad | undefined {
  const laid = layOut(sharer);
  const load = laid.ok ? shelfFor([laid.value], limits) : laid;
  return load.ok ? load.value : undefined;
}
