import type { Glass } from "@/lib/domain/glass/glass";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { StressLimits } from "./stress-level";

/** A straight ramp of the surface down to `toC` at a rate, K/h, > 0. */
export type CoolingRamp = { readonly toC: number; readonly rateKPerH: number };

export type CoolingTask = {
  readonly glass: Glass;
  readonly body: CoolingBody;
  /** The body itself where the model can follow it, a ball or a long cylinder cooled all round; a slab needs no other. */
  readonly round?: { readonly shape: "cylinder" | "ball"; readonly diameterM: number } | undefined;
  readonly limits: StressLimits;
  /** Where the glass still flows and the way down begins, °C. */
  readonly fromC: number;
  /** How fast the surface may fall to the soak. */
  readonly dropKPerH: number;
  /** What the mould lets through, K/h; Infinity for bare glass. */
  readonly fastestKPerH: number;
  /** A soak is never shorter than this. */
  readonly leastSoakHours: number;
};

export type WayDown = {
  /** Below `fromC` the drop goes no faster than this. */
  readonly drop: { readonly fromC: number; readonly rateKPerH: number };
  readonly soakC: number;
  readonly soakHours: number;
  /** While stress can still freeze in, each no faster than the next. */
  readonly slow: readonly CoolingRamp[];
  /** Down to the room, limited by passing tension. */
  readonly last: CoolingRamp;
};
